package dev.pawl.plant.motion;

import java.util.ArrayList;
import java.util.List;

/**
 * The tracks of a ride: a closed circuit, and sidings that leave it at a switch and end.
 */
public final class Course {

  private final List<Track> tracks;

  /**
   * A track.
   *
   * @param length metres
   * @param at where its switch is on the circuit; 0 for the circuit itself
   * @param places of the points whose heights are known, from 0, rising
   * @param heights one for each
   */
  public record Track(String name, double length, double at, double[] places, double[] heights) {}

  /** The circuit first, then the sidings. */
  public Course(List<Track> tracks) {
    this.tracks = List.copyOf(tracks);
  }

  public int tracks() {
    return tracks.size();
  }

  public String name(int track) {
    return tracks.get(track).name();
  }

  /** Length of a track in metres. */
  public double length(int track) {
    return tracks.get(track).length();
  }

  /** Where on the circuit a siding begins; 0 for the circuit itself. */
  public double switchPlace(int siding) {
    return tracks.get(siding).at();
  }

  /** Where a stretch lies along a track's route; a span without length where it does not. */
  Route.Span span(int track, Stretch stretch) {
    double at = switchPlace(track);
    if (stretch.track() == track) {
      return new Route.Span(stretch.from() + at, stretch.to() + at);
    }
    return stretch.track() == 0 && stretch.from() < at ? new Route.Span(stretch.from(), Math.min(at, stretch.to()))
        : new Route.Span(0, 0);
  }

  /** Height in metres at a place of a track. */
  public double height(int track, double place) {
    Route route = route(track, new Route.Span[0]);
    double along = place + switchPlace(track);
    return route.height(along, route.cell(along, true), true);
  }

  Route route(int track, Route.Span[] spans) {
    Track main = tracks.get(0);
    double[] switches = tracks.stream().skip(1).mapToDouble(Track::at).toArray();
    if (track == 0) {
      return new Route(true, main.length(), main.places(), main.heights(), switches, spans);
    }
    Track siding = tracks.get(track);
    List<double[]> points = new ArrayList<>();
    for (int i = 0; i < main.places().length && main.places()[i] < siding.at(); i++) {
      points.add(new double[] {main.places()[i], main.heights()[i]});
    }
    points.add(new double[] {siding.at(), height(0, siding.at())});
    for (int i = 0; i < siding.places().length; i++) {
      if (siding.places()[i] > 0) {
        points.add(new double[] {siding.at() + siding.places()[i], siding.heights()[i]});
      }
    }
    return new Route(false, siding.at() + siding.length(), points.stream().mapToDouble(it -> it[0]).toArray(),
        points.stream().mapToDouble(it -> it[1]).toArray(), new double[0], spans);
  }
}
