package dev.pawl.plant.motion;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A track with its equipment and trains, moved on from event to event. Each train's mass lies evenly along its length.
 */
public final class Plant {

  private static final int MOST_EVENTS = 2000;
  /**
   * Trains whose gap is less than this have touched, metres; a little below 0, since that is where touching ones are.
   */
  private static final double TOUCHING = -1e-8;
  /** Metres per second by which two trains may come closer than their speeds at both ends of a piece say. */
  private static final double CLOSING_MARGIN = 0.5;
  private static final double LEAST_LOOK = 1e-3;

  private final Course course;
  private final List<Equipment> equipment;
  private final long dogged;
  private final Route.Span[][] spans;
  private final Route[] routes;
  private final List<Train> trains = new ArrayList<>();
  private final List<Body> bodies = new ArrayList<>();
  private final double[][] contact;
  private final boolean[] thrown;
  private final double[] throwing;
  private MotionListener listener = new Quiet();
  private double now;
  private double nextContact = Double.POSITIVE_INFINITY;
  private double eventsSince;
  private int events;

  /**
   * A train at its start.
   *
   * @param track 0 for the circuit, or the number of a siding
   * @param nose metres along that track
   */
  public record Start(String name, Train.Kind kind, int track, double nose, double speed) {}

  /** Nobody listens. */
  private static final class Quiet implements MotionListener {
    @Override
    public void moved(Train train, double from, double to) {}

    @Override
    public void touched(Train behind, Train ahead, double time, double speed) {}

    @Override
    public void strayed(Train train, double time, String what) {}
  }

  /** The most pieces of equipment, a lift with teeth counting twice. */
  public static final int MOST_EQUIPMENT = 63;

  /** A plant at time 0. */
  public Plant(Course course, List<Equipment> equipment, List<Start> starts) {
    this.course = course;
    this.equipment = new ArrayList<>(equipment);
    long dogs = 0;
    for (int i = 0; i < equipment.size(); i++) {
      equipment.get(i).take(i);
      if (equipment.get(i) instanceof Lift lift) {
        dogs |= 1L << i;
        if (lift.data().rack().length() > 0) {
          dogs |= 1L << this.equipment.size();
          this.equipment.add(lift);
        }
      }
    }
    if (this.equipment.size() > MOST_EQUIPMENT) {
      throw new IllegalArgumentException("there are more than " + MOST_EQUIPMENT + " pieces of equipment");
    }
    dogged = dogs;
    spans = new Route.Span[course.tracks()][this.equipment.size()];
    routes = new Route[course.tracks()];
    for (int track = 0; track < course.tracks(); track++) {
      for (int bit = 0; bit < this.equipment.size(); bit++) {
        spans[track][bit] = course.span(track, stretch(bit));
      }
      routes[track] = course.route(track, spans[track]);
    }
    contact = new double[starts.size()][starts.size()];
    thrown = new boolean[course.tracks()];
    throwing = new double[course.tracks()];
    begin(starts);
  }

  private Stretch stretch(int bit) {
    Equipment piece = equipment.get(bit);
    return bit == piece.bit() ? piece.stretch() : ((Lift) piece).data().rack();
  }

  private void begin(List<Start> starts) {
    List<Double> speeds = new ArrayList<>();
    for (Start start : starts) {
      Train train = new Train(start.name(), start.kind(), trains.size());
      train.track = start.track();
      train.route = routes[start.track()];
      train.base = start.nose() + course.switchPlace(start.track());
      trains.add(train);
      bodies.add(new Body(this, List.of(train)));
      speeds.add(start.speed());
    }
    for (int i = 0; i < bodies.size(); i++) {
      bodies.get(i).plan(0, speeds.get(i));
    }
    bodies.forEach(this::lookOut);
  }

  /** Whoever has to know what trains do; one at most. */
  public void listen(MotionListener taker) {
    listener = taker;
  }

  public List<Train> trains() {
    return trains;
  }

  public Course course() {
    return course;
  }

  /** Seconds since the start. */
  public double now() {
    return now;
  }

  long dogged() {
    return dogged;
  }

  Equipment equipment(int bit) {
    return equipment.get(bit);
  }

  Route.Span span(int track, int bit) {
    return spans[track][bit];
  }

  /** Closes or opens a brake, from now on. */
  public void close(ActuatedBrake brake, boolean closed) {
    if (brake.close(now, closed)) {
      replan(brake);
    }
  }

  /** Drives tyres forward (1), backward (-1) or not at all (0), from now on. */
  public void drive(Tyres tyres, int direction) {
    if (tyres.drive(direction)) {
      replan(tyres);
    }
  }

  /** Commands a lift's drive, from now on. */
  public void run(Lift lift, boolean run, double speed) {
    if (lift.command(now, run, speed)) {
      replan(lift);
    }
  }

  /** Changes something about a piece of equipment, as a fault does, from now on. */
  public void change(Equipment piece, Runnable change) {
    change.run();
    replan(piece);
  }

  /**
   * Throws the switch of a siding.
   *
   * @param toSiding whether it leads there, else along the circuit
   * @param seconds until it lies
   */
  public void turn(int siding, boolean toSiding, double seconds) {
    if (thrown[siding] == toSiding) {
      return;
    }
    thrown[siding] = toSiding;
    throwing[siding] = now + seconds;
    double place = course.switchPlace(siding);
    for (Train train : trains) {
      double nose = train.route.wrap(train.nose(now));
      if (nose > place && nose - train.kind().length() < place) {
        listener.strayed(train, now, "a switch was thrown under it");
        throw new BeyondModel(where(train) + " has a switch thrown under it");
      }
    }
  }

  /** Whether a switch leads to its siding, and lies. */
  public boolean isThrown(int siding) {
    return thrown[siding] && now >= throwing[siding];
  }

  /** Whether a switch leads along the circuit, and lies. */
  public boolean isMain(int siding) {
    return !thrown[siding] && now >= throwing[siding];
  }

  private void replan(Equipment piece) {
    for (int i = 0; i < bodies.size(); i++) {
      Body body = bodies.get(i);
      if (body.isTouchedBy(piece) || piece instanceof Lift lift && lift.data().rack().length() > 0) {
        plan(body, now);
      }
    }
  }

  private void plan(Body body, double time) {
    double speed = body.settle(time);
    if (body.trains.size() > 1) {
      int parts = parting(body, time, speed);
      if (parts > 0) {
        part(body, parts, time, speed);
        return;
      }
    }
    stray(body, time, speed);
    body.plan(time, speed);
    lookOut(body);
  }

  /** Behind how many of its trains a body comes apart, because those ahead pull away; 0 where it does not. */
  private int parting(Body body, double time, double speed) {
    for (int cut = 1; cut < body.trains.size(); cut++) {
      double rear = new Body(this, body.trains.subList(0, cut)).accelerationAt(time, speed);
      double front = new Body(this, body.trains.subList(cut, body.trains.size())).accelerationAt(time, speed);
      if (front > rear + 1e-9) {
        body.trains.forEach(train -> train.body = body);
        return cut;
      }
    }
    body.trains.forEach(train -> train.body = body);
    return 0;
  }

  private void part(Body body, int cut, double time, double speed) {
    bodies.remove(body);
    Body rear = new Body(this, body.trains.subList(0, cut));
    Body front = new Body(this, body.trains.subList(cut, body.trains.size()));
    bodies.add(rear);
    bodies.add(front);
    rear.plan(time, speed);
    front.plan(time, speed);
    lookOut(rear);
    lookOut(front);
  }

  /** Leads trains that come to a switch onto the way that it lies for. */
  private void stray(Body body, double time, double speed) {
    for (Train train : body.trains) {
      for (int siding = 1; siding < course.tracks(); siding++) {
        double place = course.switchPlace(siding);
        boolean at = Math.abs(train.route.wrap(train.base) - place) < 4 * Route.NEAR;
        if (at && train.track == 0 && speed > 0 && time < throwing[siding]) {
          listener.strayed(train, time, "ran onto a switch that still moved");
          throw new BeyondModel(where(train) + " runs onto a switch that still moves");
        }
        if (at && train.track == 0 && speed >= 0 && thrown[siding] && time >= throwing[siding]) {
          train.track = siding;
          train.route = routes[siding];
          train.base = place;
        } else if (at && train.track == siding && (speed < 0 || !thrown[siding])) {
          if (speed < 0 && (!thrown[siding] || time < throwing[siding])) {
            listener.strayed(train, time, "backed over a switch that lay against it");
          }
          train.track = 0;
          train.route = routes[0];
        }
      }
      if (train.track > 0 && speed > 0 && train.base >= train.route.length() - 2 * Route.NEAR) {
        listener.strayed(train, time, String.format(Locale.ROOT, "ran into the end of its siding at %.1f m/s", speed));
      }
    }
  }

  /** Moves everything on. */
  public void advance(double time) {
    while (true) {
      Body first = null;
      double next = Math.min(time, nextContact);
      for (int i = 0; i < bodies.size(); i++) {
        Body body = bodies.get(i);
        if (body.end() <= next && (first == null || body.end() < first.end())) {
          first = body;
          next = body.end();
        }
      }
      if (first == null && nextContact > time) {
        break;
      }
      count(next);
      tell(next);
      now = next;
      if (first == null) {
        meet(next);
      } else {
        plan(first, next);
      }
    }
    tell(time);
    now = time;
  }

  private void count(double time) {
    if (time > eventsSince + 1e-3) {
      eventsSince = time;
      events = 0;
    }
    if (++events > MOST_EVENTS) {
      throw new BeyondModel(where(trains.get(0)) + ": more happens within a millisecond than this model can"
          + " follow");
    }
  }

  private void tell(double time) {
    if (time > now) {
      for (int i = 0; i < trains.size(); i++) {
        Train train = trains.get(i);
        if (!train.body.isAtRest()) {
          listener.moved(train, now, time);
        }
      }
    }
  }

  /** Works out when a body next touches another. */
  private void lookOut(Body body) {
    for (Train own : body.trains) {
      for (Train other : trains) {
        if (other != own) {
          contact[own.index][other.index] = touch(own, other);
          contact[other.index][own.index] = touch(other, own);
        }
      }
    }
    nextContact = Double.POSITIVE_INFINITY;
    for (double[] row : contact) {
      for (int i = 0; i < row.length; i++) {
        nextContact = row[i] > 0 ? Math.min(nextContact, row[i]) : nextContact;
      }
    }
  }

  /** When a train touches the one ahead, as far as both are planned; infinite where it does not. */
  private double touch(Train behind, Train ahead) {
    if (behind.body == ahead.body || behind.body.isAtRest() && ahead.body.isAtRest()) {
      return Double.POSITIVE_INFINITY;
    }
    double start = Math.max(now, Double.MIN_VALUE);
    double end = Math.min(behind.body.end(), ahead.body.end());
    double speed = CLOSING_MARGIN + 1.2 * (Math.max(Math.abs(behind.speed(start)), Math.abs(behind.speed(end)))
        + Math.max(Math.abs(ahead.speed(start)), Math.abs(ahead.speed(end))));
    double at = start;
    while (at < end) {
      double gap = gap(behind, ahead, at);
      double next = Math.min(end, at + Math.max(LEAST_LOOK, gap / speed));
      if (gap > TOUCHING && gap(behind, ahead, next) < TOUCHING) {
        return touching(behind, ahead, at, next);
      }
      at = next;
    }
    return Double.POSITIVE_INFINITY;
  }

  private double touching(Train behind, Train ahead, double clear, double touching) {
    double low = clear;
    double high = touching;
    for (int i = 0; i < 100 && high - low > 1e-12; i++) {
      double middle = (low + high) / 2;
      if (gap(behind, ahead, middle) < TOUCHING) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return high;
  }

  /** Metres from the nose of a train to the tail of the one ahead, as far as they share their way; else infinite. */
  private double gap(Train behind, Train ahead, double time) {
    double nose = behind.nose(time);
    double tail = ahead.nose(time) - ahead.kind().length();
    double gap = tail - nose;
    if (behind.track == 0 && ahead.track == 0) {
      double length = routes[0].length();
      double round = gap - Math.floor(gap / length) * length;
      // A little past each other is touching, not a lap apart.
      return round > length - Math.min(behind.kind().length(), ahead.kind().length()) ? round - length : round;
    }
    if (behind.track == ahead.track) {
      return gap < -ahead.kind().length() - behind.kind().length() ? Double.POSITIVE_INFINITY : gap;
    }
    double place = course.switchPlace(Math.max(behind.track, ahead.track));
    double from = behind.track == 0 ? routes[0].wrap(nose) : nose;
    double to = ahead.track == 0 ? routes[0].wrap(ahead.nose(time)) - ahead.kind().length() : tail;
    return to < place && from <= place && to > from - behind.kind().length() ? to - from : Double.POSITIVE_INFINITY;
  }

  private void meet(double time) {
    for (Train behind : trains) {
      for (Train ahead : trains) {
        if (contact[behind.index][ahead.index] == time) {
          join(behind.body, ahead.body, behind, ahead, time);
          return;
        }
      }
    }
    throw new IllegalStateException("a contact is between two trains");
  }

  private void join(Body rear, Body front, Train behind, Train ahead, double time) {
    double fast = rear.settle(time);
    double slow = front.settle(time);
    listener.touched(behind, ahead, time, fast - slow);
    List<Train> both = new ArrayList<>(rear.trains);
    both.addAll(front.trains);
    bodies.remove(rear);
    bodies.remove(front);
    Body body = new Body(this, both);
    bodies.add(body);
    body.settle(time);
    body.plan(time, (rear.mass() * fast + front.mass() * slow) / body.mass());
    for (double[] row : contact) {
      for (Train train : both) {
        row[train.index] = Double.POSITIVE_INFINITY;
      }
    }
    lookOut(body);
  }

  /** Whether a drive turns backward under a train. */
  public boolean isDrivenBack(Train train) {
    for (Equipment piece : equipment) {
      if (piece instanceof Tyres tyres && tyres.speed() < 0 && train.body.isTouchedBy(tyres)) {
        return true;
      }
    }
    return false;
  }

  /** What drives a train, or is a brake that should hold it and is not shut; empty where it is left to itself. */
  public Optional<Equipment> movedBy(Train train) {
    for (Equipment piece : equipment) {
      if (train.body.isTouchedBy(piece) && piece.letsMove(now)) {
        return Optional.of(piece);
      }
    }
    return Optional.empty();
  }

  /** Newtons with which a lift's chain pushes trains. */
  public double load(Lift lift) {
    double sum = 0;
    for (int i = 0; i < bodies.size(); i++) {
      sum += bodies.get(i).chainForce(now, lift);
    }
    return sum;
  }

  /** Metres per second of a lift's chain; less than its drive's where it carries a train and slips. */
  public double chainSpeed(Lift lift) {
    boolean slips = lift.data().slip() > 0 && load(lift) > 0;
    return lift.motorSpeed(now) * (slips ? 1 - lift.data().slip() : 1);
  }

  /** The smallest gap in metres between a train and the one ahead. */
  public double smallestGap() {
    double smallest = Double.POSITIVE_INFINITY;
    for (Train behind : trains) {
      for (Train ahead : trains) {
        if (behind != ahead) {
          smallest = Math.min(smallest, gap(behind, ahead, now));
        }
      }
    }
    return smallest;
  }

  /** A train and its place, as a message says it. */
  String where(Train train) {
    double nose = train.route.wrap(train.nose(now));
    return String.format(Locale.ROOT, "%s, at %.2f m%s,", train.name(), nose - course.switchPlace(train.track()),
        train.track() == 0 ? "" : " on " + course.name(train.track()));
  }
}
