package dev.pawl.plant.scenario;

import dev.pawl.plant.ride.Device;
import dev.pawl.plant.ride.Ride;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What can fail on a ride, and how, by its name: equipment, air, links, flags, and the messages of signals. */
public final class Failures {

  private static final List<Fault> FLAG = List.of(Fault.MISSED, Fault.CHATTERING, Fault.LATE, Fault.SILENT);
  private static final List<Fault> MESSAGES = List.of(Fault.SILENT, Fault.LATE);

  private static final Device.Visitor<List<Fault>> OF_DEVICE = new Device.Visitor<>() {
    @Override
    public List<Fault> visit(Device.FrictionBrake it) {
      return List.of(Fault.STUCK, Fault.WEAK, Fault.SLOW);
    }

    @Override public List<Fault> visit(Device.MagneticBrake it) { return List.of(); }

    @Override
    public List<Fault> visit(Device.TyreDrive it) {
      return List.of(Fault.STUCK, Fault.WELDED, Fault.DEAD);
    }

    @Override
    public List<Fault> visit(Device.ChainLift it) {
      return List.of(Fault.STUCK, Fault.WELDED, Fault.DEAD, Fault.SLIPPING, Fault.PARTED, Fault.JAMMED, Fault.UNLOCKED);
    }

    @Override public List<Fault> visit(Device.SwitchDrive it) { return List.of(Fault.STUCK); }
  };

  private Failures() {}

  /**
   * The ways in which each thing can fail, in the order of the ride's file. A name of equipment goes before a signal's.
   */
  public static Map<String, List<Fault>> of(Ride ride) {
    Map<String, List<Fault>> ways = new LinkedHashMap<>();
    ride.devices().forEach(device -> ways.put(device.name().text(), device.accept(OF_DEVICE)));
    ride.air().ifPresent(air -> ways.put(air.name().text(), List.of(Fault.LOST, Fault.DEAD)));
    ride.links().forEach(link -> ways.put(link.name().text(), MESSAGES));
    ride.flags().forEach(flag -> ways.putIfAbsent(flag.signal().text(), FLAG));
    ride.sensors().forEach(sensor -> ways.putIfAbsent(sensor.signal().text(), MESSAGES));
    ride.devices().forEach(device -> device.commands().forEach(signal -> ways.putIfAbsent(signal.text(), MESSAGES)));
    return ways;
  }
}
