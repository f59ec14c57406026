package dev.pawl.plant.ride;

import dev.pawl.plant.motion.Course;
import dev.pawl.plant.motion.Plant;
import dev.pawl.plant.text.Statement;
import java.util.List;
import java.util.Optional;

/**
 * A ride as it is described: its track, equipment and trains, and which signals command and report what.
 *
 * @param name for reports
 * @param habits what the ride's file says of the person at the desk, in the words of scenarios
 */
public record Ride(String name, Course course, List<Plant.Start> trains, List<Device> devices, List<Flag> flags,
    List<Sensor> sensors, Optional<Air> air, List<Link> links, List<Statement> habits) {

  public Ride {
    trains = List.copyOf(trains);
    devices = List.copyOf(devices);
    flags = List.copyOf(flags);
    sensors = List.copyOf(sensors);
    links = List.copyOf(links);
    habits = List.copyOf(habits);
  }

  /** The number of a siding; 0 where there is none of that name. */
  public int siding(String siding) {
    for (int track = 1; track < course.tracks(); track++) {
      if (course.name(track).equals(siding)) {
        return track;
      }
    }
    return 0;
  }
}
