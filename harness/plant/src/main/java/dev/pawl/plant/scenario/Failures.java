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

  private Failures() {}

  /**
   * The ways in which each thing can fail, in the order of the ride's file. A name of equipment goes before a signal's.
   */
  public static Map<String, List<Fault>> of(Ride ride) {
    Map<String, List<Fault>> ways = new LinkedHashMap<>();
    ride.devices().forEach(device -> ways.put(device.name().text(), of(device)));
    ride.air().ifPresent(air -> ways.put(air.name().text(), List.of(Fault.LOST, Fault.DEAD)));
    ride.links().forEach(link -> ways.put(link.name().text(), MESSAGES));
    ride.flags().forEach(flag -> ways.putIfAbsent(flag.signal().text(), FLAG));
    ride.sensors().forEach(sensor -> ways.putIfAbsent(sensor.signal().text(), MESSAGES));
    ride.devices().forEach(device -> device.commands().forEach(signal -> ways.putIfAbsent(signal.text(), MESSAGES)));
    return ways;
  }

  private static List<Fault> of(Device device) {
    if (device instanceof Device.FrictionBrake) {
      return List.of(Fault.STUCK, Fault.WEAK, Fault.SLOW);
    } else if (device instanceof Device.TyreDrive) {
      return List.of(Fault.STUCK, Fault.WELDED, Fault.DEAD);
    } else if (device instanceof Device.ChainLift) {
      return List.of(Fault.STUCK, Fault.WELDED, Fault.DEAD, Fault.SLIPPING, Fault.PARTED, Fault.JAMMED, Fault.UNLOCKED);
    }
    return device instanceof Device.SwitchDrive ? List.of(Fault.STUCK) : List.of();
  }
}
