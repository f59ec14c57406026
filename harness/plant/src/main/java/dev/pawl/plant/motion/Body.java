package dev.pawl.plant.motion;

import java.util.List;

/**
 * One train, or several that push each other: moves as a polynomial of time until something begins or ends for it, and
 * is
 * then planned anew.
 */
final class Body {

  /** The longest that anything is planned for. */
  private static final double LONGEST = 1000;
  /** Metres per second beyond which no ride of this kind runs. */
  private static final double FASTEST = 60;
  private static final double SETTLED = 1e-12;
  /** Metres. */
  private static final double NEGLIGIBLE = 1e-14;
  private static final int HALVINGS = 200;
  private static final int REST = Integer.MAX_VALUE;

  final List<Train> trains;
  private final Plant plant;
  private final Piece piece = new Piece();
  private final double[] way = new double[Piece.ORDER + 1];
  private final double mass;
  private int terms;
  private double start;
  private double end;
  private double atEnd;
  private double speedAtEnd;
  private long acting;
  private boolean chained;
  private double edge;
  private double time;
  /** The part whose target it comes to, {@link #REST} for rest, or -1; and when. */
  private int met = -1;
  private double meeting;

  Body(Plant plant, List<Train> trains) {
    this.plant = plant;
    this.trains = List.copyOf(trains);
    this.mass = trains.stream().mapToDouble(train -> train.kind().mass()).sum();
    trains.forEach(train -> train.body = this);
  }

  double mass() {
    return mass;
  }

  Train front() {
    return trains.get(trains.size() - 1);
  }

  /** Until when its motion is planned. */
  double end() {
    return end;
  }

  boolean isTouchedBy(Equipment equipment) {
    return (acting >> equipment.bit() & 1) != 0;
  }

  /** Metres moved since its motion was planned. */
  double moved(double at) {
    return at >= end ? atEnd : value(at - start);
  }

  double speed(double at) {
    return at >= end ? speedAtEnd : rate(at - start);
  }

  boolean isAtRest() {
    return terms == 0;
  }

  private double value(double elapsed) {
    double sum = 0;
    for (int k = terms; k > 0; k--) {
      sum = (sum + way[k]) * elapsed;
    }
    return sum;
  }

  private double rate(double elapsed) {
    double sum = 0;
    for (int k = terms; k > 1; k--) {
      sum = (sum + k * way[k]) * elapsed;
    }
    return terms == 0 ? 0 : sum + way[1];
  }

  private double change(double elapsed) {
    double sum = 0;
    for (int k = terms; k > 2; k--) {
      sum = (sum + (k - 1) * k * way[k]) * elapsed;
    }
    return terms < 2 ? 0 : sum + 2 * way[2];
  }

  /** Ends what was planned; the trains' places are then those at that time. */
  double settle(double at) {
    double speed = speed(at);
    double moved = moved(at);
    for (Train train : trains) {
      train.base += moved;
    }
    terms = 0;
    start = at;
    end = at;
    atEnd = 0;
    speedAtEnd = speed;
    return speed;
  }

  /** Newtons with which a chain pushes it. */
  double chainForce(double at, Lift lift) {
    if (!chained || !isTouchedBy(lift)) {
      return 0;
    }
    double elapsed = at - start;
    return mass * piece.pushed(rate(elapsed), change(elapsed), value(elapsed), elapsed);
  }

  /** What its acceleration would be at a speed. */
  double accelerationAt(double at, double speed) {
    gather(at, speed >= 0);
    piece.solve(speed);
    if (speed == 0 && !piece.isHolding() && piece.acceleration() < 0) {
      gather(at, false);
      piece.solve(0);
    }
    return piece.acceleration();
  }

  /** Plans its motion from now on. */
  void plan(double at, double speed) {
    if (!(Math.abs(speed) <= FASTEST)) {
      throw new BeyondModel(plant.where(front()) + " runs at " + Math.round(speed)
          + " m/s, faster than this model is for (" + (int) FASTEST + " m/s)");
    }
    start = at;
    time = at;
    double from = speed;
    boolean forward = speed >= 0;
    gather(at, forward);
    from = piece.snapped(piece.jump(from));
    if (from != speed && from >= 0 != forward) {
      forward = from >= 0;
      gather(at, forward);
    }
    piece.solve(from);
    if (from == 0 && !piece.isHolding()) {
      forward = turned(at);
    }
    if (piece.isHolding()) {
      hold(from);
    } else {
      run(from, forward);
    }
  }

  /** A body at rest that is free to go: forward, or backward; what holds one way need not hold the other. */
  private boolean turned(double at) {
    if (piece.acceleration() >= 0) {
      return true;
    }
    gather(at, false);
    piece.solve(0);
    if (!piece.isHolding() && piece.acceleration() >= 0) {
      gather(at, true);
      piece.solve(0);
      return true;
    }
    return false;
  }

  private void gather(double at, boolean forward) {
    piece.clear();
    acting = 0;
    chained = false;
    edge = LONGEST * FASTEST;
    time = Double.POSITIVE_INFINITY;
    for (Train train : trains) {
      gather(train, at, forward);
    }
  }

  private void gather(Train train, double at, boolean forward) {
    Route route = train.route;
    Train.Kind kind = train.kind();
    double nose = train.base;
    double tail = nose - kind.length();
    int noseCell = route.cell(nose, forward);
    int tailCell = route.cell(tail, forward);
    edge = Math.min(edge, Math.min(route.rest(nose, noseCell, forward), route.rest(tail, tailCell, forward)));
    double grade = (route.height(nose, noseCell, forward) - route.height(tail, tailCell, forward)) / kind.length();
    double gain = (route.slope(noseCell) - route.slope(tailCell)) / kind.length();
    piece.train(kind, kind.mass() / mass, grade, gain);
    long ahead = route.acting(noseCell);
    long behind = route.acting(tailCell);
    long bits = route.acting(tailCell, noseCell) & ~plant.dogged();
    acting |= bits;
    for (long rest = bits; rest != 0; rest &= rest - 1) {
      int bit = Long.numberOfTrailingZeros(rest);
      Equipment equipment = plant.equipment(bit);
      double share = route.coverage(plant.span(train.track(), bit), tail, nose);
      double more = ((ahead >> bit & 1) - (behind >> bit & 1)) / kind.length();
      time = Math.min(time, equipment.nextChange(at));
      equipment.act(piece, at, share, more);
    }
    if (plant.dogged() != 0) {
      dog(train, at, forward);
    }
    if (!route.closed() && nose >= route.length() - Route.NEAR) {
      piece.limited(0, 0, 0, 1, Double.POSITIVE_INFINITY, 1, 0, 1, 0);
    }
  }

  /** Chains and racks take hold of a train's dog. */
  private void dog(Train train, double at, boolean forward) {
    double dog = train.base - train.kind().dog();
    int cell = train.route.cell(dog, forward);
    edge = Math.min(edge, train.route.rest(dog, cell, forward));
    long bits = train.route.acting(cell) & plant.dogged();
    acting |= bits;
    for (long rest = bits; rest != 0; rest &= rest - 1) {
      int bit = Long.numberOfTrailingZeros(rest);
      Lift lift = (Lift) plant.equipment(bit);
      time = Math.min(time, lift.nextChange(at));
      if (bit == lift.bit()) {
        if (lift.holds(at)) {
          chained = true;
          lift.act(piece, at, 1, 0);
        }
      } else if (lift.catches()) {
        double above = lift.aboveTooth(train.route.wrap(dog) - plant.span(train.track(), bit).from());
        if (above <= 2 * Route.NEAR) {
          piece.limited(0, 0, 1, 0, Double.POSITIVE_INFINITY, 1, 0, 1, 0);
        } else if (!forward) {
          edge = Math.min(edge, above);
        }
      }
    }
  }

  /** Stays at a target's speed. */
  private void hold(double speed) {
    way[1] = speed;
    way[2] = piece.acceleration() / 2;
    terms = way[2] != 0 ? 2 : speed != 0 ? 1 : 0;
    double longest = time - start;
    if (terms == 0 && piece.isStill()) {
      close(longest);
      return;
    }
    longest = Math.min(longest, LONGEST);
    if (terms > 0) {
      longest = reaches(meets(longest), speed >= 0);
    }
    double sound = 0;
    for (int part = 1; part <= 4; part++) {
      double look = longest * part / 4;
      if (!piece.stillHolds(value(look), look)) {
        close(lost(sound, look));
        return;
      }
      sound = look;
    }
    close(longest);
  }

  /** When what holds it ceases to, between two times. */
  private double lost(double sound, double lost) {
    double low = sound;
    double high = lost;
    for (int i = 0; i < HALVINGS && high - low > SETTLED; i++) {
      double middle = (low + high) / 2;
      if (piece.stillHolds(value(middle), middle)) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }

  /** Runs freely. */
  private void run(double speed, boolean forward) {
    double exact = piece.series(speed, way);
    terms = Piece.ORDER;
    while (terms > 0 && way[terms] == 0) {
      terms--;
    }
    double longest = Math.min(Math.min(exact, LONGEST), time - start);
    close(reaches(meets(longest), forward));
  }

  private void close(double elapsed) {
    shorten(elapsed);
    atEnd = Double.isInfinite(elapsed) ? 0 : value(elapsed);
    speedAtEnd = Double.isInfinite(elapsed) ? 0 : piece.snapped(rate(elapsed));
    if (met >= 0 && elapsed == meeting) {
      speedAtEnd = met == REST ? 0 : piece.speedOf(met) + piece.rampOfPart(met) * elapsed;
    }
    met = -1;
    end = start + elapsed;
    if (end <= start && elapsed > 0) {
      end = Math.nextUp(start);
    }
  }

  /** Leaves out terms that say nothing within the time planned. */
  private void shorten(double elapsed) {
    double power = Math.pow(elapsed, terms);
    while (terms > 2 && Math.abs(way[terms]) * power < NEGLIGIBLE) {
      power /= elapsed;
      terms--;
    }
  }

  /**
   * Seconds until it comes to the end of what acts here alike, but at most {@code longest}; until then it never turns.
   */
  private double reaches(double longest, boolean forward) {
    double sign = forward ? 1 : -1;
    double distance = edge;
    if (sign * value(longest) < distance) {
      return longest;
    }
    met = -1;
    double low = 0;
    double high = longest;
    double guess = Math.min(high, distance / Math.max(1e-9, Math.abs(rate(0))));
    for (int i = 0; i < HALVINGS; i++) {
      double over = sign * value(guess) - distance;
      if (over < 0) {
        low = guess;
      } else {
        high = guess;
      }
      double slope = sign * rate(guess);
      double next = guess - over / slope;
      if (Math.abs(over) < SETTLED || high - low < SETTLED) {
        return guess;
      }
      guess = next > low && next < high ? next : (low + high) / 2;
    }
    return guess;
  }

  /** The first time at which it comes to the speed of a target, or to rest. */
  private double meets(double longest) {
    met = -1;
    meeting = longest;
    for (int i = 0; i < piece.parts(); i++) {
      cross(i, piece.speedOf(i), piece.rampOfPart(i));
    }
    cross(REST, 0, 0);
    return meeting;
  }

  private void cross(int part, double target, double ramp) {
    double before = rate(0) - target;
    double toBegin = change(0) - ramp;
    if (Math.abs(before) <= SETTLED) {
      before = toBegin;
      if (before == 0) {
        return;
      }
    }
    double turn = turning(ramp);
    if (turn > 0 && opposite(before, rate(turn) - target - ramp * turn)) {
      cut(part, target, ramp, before, turn);
    } else if (opposite(before, rate(meeting) - target - ramp * meeting)) {
      cut(part, target, ramp, before, meeting);
    }
  }

  private static boolean opposite(double before, double after) {
    return before > 0 ? after < 0 : after > 0;
  }

  /** Where the difference of speeds turns round within what is looked at, or -1. */
  private double turning(double ramp) {
    double first = change(0) - ramp;
    double last = change(meeting) - ramp;
    if (terms < 3 || first == 0 || !opposite(first, last)) {
      return -1;
    }
    double low = 0;
    double high = meeting;
    for (int i = 0; i < 40; i++) {
      double middle = (low + high) / 2;
      if (opposite(first, change(middle) - ramp)) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return low;
  }

  private void cut(int part, double target, double ramp, double before, double until) {
    double low = 0;
    double high = until;
    for (int i = 0; i < HALVINGS && high - low > 1e-14; i++) {
      double middle = (low + high) / 2;
      if (opposite(before, rate(middle) - target - ramp * middle)) {
        high = middle;
      } else {
        low = middle;
      }
    }
    met = part;
    meeting = high;
  }
}
