package dev.pawl.plant.motion;

import java.util.Arrays;

/**
 * All that acts on a body of trains while nothing begins and nothing ends: each part depends on the way from here, the
 * time from now and the speed, in a form whose power series in time is known term by term.
 *
 * <p>Whatever holds by friction or by contact is a <em>limited</em> part: it drives the body to its target speed with
 * at
 * most so much either way, and at that speed gives just what is needed. A brake's target is 0, a tyre drive's its
 * speed,
 * a chain's the speed of the chain, which it only pushes up to.
 */
final class Piece {

  /** Gravity as schools round it, metres per second squared. */
  static final double GRAVITY = 9.81;

  /** Highest power of time in a body's motion. */
  static final int ORDER = 14;

  private static final double AIR_DENSITY = 1.2;
  /** Speeds closer than this are one speed, metres per second. */
  private static final double NEAR = 1e-10;
  /** Error of a place for each piece, metres. */
  private static final double TOLERANCE = 1e-12;

  private double weight;
  private double pull;
  private double pullGain;
  private double drag;

  private int parts;
  private Limited[] limited = {};
  private int rolls;
  private Roll[] roll = {};
  private int eddies;
  private Eddy[] eddy = {};

  private double acceleration;
  private double target;
  private boolean holding;

  private final double[] squares = new double[ORDER + 1];
  private final double[] speeds = new double[ORDER + 1];

  /** A part that drives to a target speed. */
  private static final class Limited {
    double speed;
    double ramp;
    double up;
    double down;
    double share;
    double shareRate;
    double cover;
    double gain;

    double amount(double way, double time) {
      return Math.max(0, (share + shareRate * time) * (cover + gain * way));
    }

    double up(double way, double time) {
      return up == 0 ? 0 : up * amount(way, time);
    }

    double down(double way, double time) {
      return down == 0 ? 0 : down * amount(way, time);
    }
  }

  /** Rolling resistance of a train where the slope under it changes. */
  private static final class Roll {
    double most;
    double grade;
    double gain;
    final double[] grades = new double[ORDER + 1];
    final double[] squares = new double[ORDER + 1];
    final double[] roots = new double[ORDER + 1];

    double amount(double way) {
      double sine = grade + gain * way;
      return most * Math.sqrt(Math.max(0, 1 - sine * sine));
    }

    /** Term k of the root of 1 less the square of the grade. */
    double term(int k, double[] way) {
      grades[k] = (k == 0 ? grade : 0) + gain * way[k];
      double square = k == 0 ? 1 : 0;
      for (int i = 0; i <= k; i++) {
        square -= grades[i] * grades[k - i];
      }
      squares[k] = square;
      if (k == 0) {
        roots[0] = Math.sqrt(Math.max(1e-12, square));
      } else {
        double rest = square;
        for (int i = 1; i < k; i++) {
          rest -= roots[i] * roots[k - i];
        }
        roots[k] = rest / (2 * roots[0]);
      }
      return most * roots[k];
    }
  }

  /** An eddy current brake. */
  private static final class Eddy {
    double peak;
    double speed;
    double share;
    double shareRate;
    double cover;
    double gain;
    final double[] ratios = new double[ORDER + 1];
    final double[] covers = new double[ORDER + 1];

    double amount(double way, double time, double velocity) {
      double ratio = velocity / speed;
      return 2 * peak * ratio / (1 + ratio * ratio) * (share + shareRate * time) * (cover + gain * way);
    }

    /** Term k, the squares of the speed being known up to it. */
    double term(int k, double[] way, double[] velocity, double[] squares) {
      double scale = 1 / (speed * speed);
      double over = 2 * velocity[k] / speed;
      for (int i = 1; i <= k; i++) {
        over -= squares[i] * scale * ratios[k - i];
      }
      ratios[k] = over / (1 + squares[0] * scale);
      double here = (k == 0 ? cover : 0) + gain * way[k];
      double before = k == 0 ? 0 : (k == 1 ? cover : 0) + gain * way[k - 1];
      covers[k] = share * here + shareRate * before;
      double sum = 0;
      for (int i = 0; i <= k; i++) {
        sum += ratios[i] * covers[k - i];
      }
      return peak * sum;
    }
  }

  void clear() {
    pull = 0;
    pullGain = 0;
    drag = 0;
    parts = 0;
    rolls = 0;
    eddies = 0;
  }

  /**
   * Adds a train's own: gravity, air and rolling.
   *
   * @param share of the body's mass
   * @param grade mean sine of the slope under it
   * @param gain of that for each metre on
   */
  void train(Train.Kind kind, double share, double grade, double gain) {
    weight = share;
    pull -= share * GRAVITY * grade;
    pullGain -= share * GRAVITY * gain;
    drag += share * AIR_DENSITY * kind.dragArea() / (2 * kind.mass());
    if (kind.rolling() > 0 && gain == 0) {
      double most = GRAVITY * kind.rolling() * Math.sqrt(Math.max(0, 1 - grade * grade));
      limited(0, 0, 1, 1, most, 1, 0, 1, 0);
    } else if (kind.rolling() > 0) {
      if (rolls == roll.length) {
        roll = Arrays.copyOf(roll, rolls + 4);
        for (int i = rolls; i < roll.length; i++) {
          roll[i] = new Roll();
        }
      }
      Roll part = roll[rolls++];
      part.most = share * GRAVITY * kind.rolling();
      part.grade = grade;
      part.gain = gain;
    }
  }

  /**
   * Adds a part that drives the train added last to a speed.
   *
   * @param up 1 if it quickens what is slower, else 0
   * @param down 1 if it slows what is faster, else 0
   * @param most the greatest acceleration it can give
   * @param share of that which it gives now, and by how much that grows each second
   * @param cover share of the train that it takes hold of, and by how much that grows with each metre
   */
  void limited(double speed, double ramp, int up, int down, double most, double share, double shareRate, double cover,
      double gain) {
    if (parts == limited.length) {
      limited = Arrays.copyOf(limited, parts + 8);
      for (int i = parts; i < limited.length; i++) {
        limited[i] = new Limited();
      }
    }
    Limited part = limited[parts++];
    part.speed = speed;
    part.ramp = ramp;
    part.up = up == 0 ? 0 : weight * most;
    part.down = down == 0 ? 0 : weight * most;
    part.share = share;
    part.shareRate = shareRate;
    part.cover = cover;
    part.gain = gain;
  }

  /** Adds an eddy current brake to the train added last. */
  void eddy(double peak, double speed, double share, double shareRate, double cover, double gain) {
    if (eddies == eddy.length) {
      eddy = Arrays.copyOf(eddy, eddies + 4);
      for (int i = eddies; i < eddy.length; i++) {
        eddy[i] = new Eddy();
      }
    }
    Eddy part = eddy[eddies++];
    part.peak = weight * peak;
    part.speed = speed;
    part.share = share;
    part.shareRate = shareRate;
    part.cover = cover;
    part.gain = gain;
  }

  /** The speed to which something without limit takes a body at once; its own where nothing does. */
  double jump(double velocity) {
    double speed = velocity;
    for (int i = 0; i < parts; i++) {
      Limited part = limited[i];
      if (Double.isInfinite(part.up) && part.speed > speed + NEAR) {
        speed = part.speed;
      }
    }
    for (int i = 0; i < parts; i++) {
      Limited part = limited[i];
      if (Double.isInfinite(part.down) && part.speed < speed - NEAR) {
        speed = part.speed;
      }
    }
    return speed;
  }

  /** Works out what happens at a speed: {@link #acceleration()}, and whether that is held at a target. */
  void solve(double velocity) {
    solve(velocity, 0, 0);
  }

  private void solve(double velocity, double way, double time) {
    holding = false;
    double rest = rest(velocity, way, time);
    if (atTarget(velocity, time) == 0) {
      acceleration = rest;
      return;
    }
    double above = rest;
    double below = rest;
    double fastest = Double.NEGATIVE_INFINITY;
    double slowest = Double.POSITIVE_INFINITY;
    for (int i = -1; i < parts; i++) {
      if (isAt(i, velocity, time)) {
        above -= downOf(i, way, time);
        below += upOf(i, way, time);
        fastest = Math.max(fastest, rampOf(i));
        slowest = Math.min(slowest, rampOf(i));
      }
    }
    if (above > fastest) {
      acceleration = above;
    } else if (below < slowest) {
      acceleration = below;
    } else {
      hold(velocity, rest, way, time);
    }
  }

  /** Rolling resistance where the slope changes is part -1, all of it together. */
  private boolean isAt(int part, double velocity, double time) {
    return part < 0 ? rolls > 0 && Math.abs(velocity) <= NEAR
        : Math.abs(limited[part].speed + limited[part].ramp * time - velocity) <= NEAR;
  }

  private double upOf(int part, double way, double time) {
    return part < 0 ? rolling(way) : limited[part].up(way, time);
  }

  private double downOf(int part, double way, double time) {
    return part < 0 ? rolling(way) : limited[part].down(way, time);
  }

  private double rampOf(int part) {
    return part < 0 ? 0 : limited[part].ramp;
  }

  private int atTarget(double velocity, double time) {
    int count = 0;
    for (int i = -1; i < parts; i++) {
      count += isAt(i, velocity, time) ? 1 : 0;
    }
    return count;
  }

  private double rolling(double way) {
    double sum = 0;
    for (int i = 0; i < rolls; i++) {
      sum += roll[i].amount(way);
    }
    return sum;
  }

  /** Between the fastest and the slowest of the targets: the one at which all is in balance, or a way between two. */
  private void hold(double velocity, double rest, double way, double time) {
    for (int i = -1; i < parts; i++) {
      if (isAt(i, velocity, time)) {
        double ramp = rampOf(i);
        double least = rest;
        double most = rest;
        for (int j = -1; j < parts; j++) {
          if (isAt(j, velocity, time)) {
            least += rampOf(j) > ramp ? upOf(j, way, time) : -downOf(j, way, time);
            most += rampOf(j) < ramp ? -downOf(j, way, time) : upOf(j, way, time);
          }
        }
        if (least <= ramp && ramp <= most) {
          holding = true;
          target = velocity;
          acceleration = ramp;
          return;
        }
        if (least > ramp) {
          acceleration = least;
        }
      }
    }
  }

  /** Acceleration by all that is not at its target. */
  private double rest(double velocity, double way, double time) {
    double sum = pull + pullGain * way - drag * velocity * Math.abs(velocity);
    for (int i = 0; i < parts; i++) {
      if (!isAt(i, velocity, time)) {
        Limited part = limited[i];
        sum += part.speed + part.ramp * time > velocity ? part.up(way, time) : -part.down(way, time);
      }
    }
    if (rolls > 0 && Math.abs(velocity) > NEAR) {
      sum -= Math.signum(velocity) * rolling(way);
    }
    for (int i = 0; i < eddies; i++) {
      sum -= eddy[i].amount(way, time, velocity);
    }
    return sum;
  }

  double acceleration() {
    return acceleration;
  }

  /** Whether the body stays at a target's speed. */
  boolean isHolding() {
    return holding;
  }

  /** Whether the body, held at a speed from here, is still held there a while later. */
  boolean stillHolds(double way, double time) {
    double ramp = acceleration;
    double velocity = target + ramp * time;
    double rest = rest(velocity, way, time);
    double least = rest;
    double most = rest;
    for (int i = -1; i < parts; i++) {
      if (isAt(i, velocity, time)) {
        least += rampOf(i) > ramp ? upOf(i, way, time) : -downOf(i, way, time);
        most += rampOf(i) < ramp ? -downOf(i, way, time) : upOf(i, way, time);
      }
    }
    return least <= ramp + NEAR && ramp <= most + NEAR;
  }

  /** What one without limit that only pushes gives to keep a speed: the pull of a chain, as an acceleration. */
  double pushed(double velocity, double accelerated, double way, double time) {
    double sum = accelerated;
    for (int i = 0; i < eddies; i++) {
      sum += eddy[i].amount(way, time, velocity);
    }
    sum -= pull + pullGain * way - drag * velocity * Math.abs(velocity);
    sum += velocity > NEAR ? rolling(way) : 0;
    for (int i = 0; i < parts; i++) {
      Limited part = limited[i];
      boolean pushes = part.up > 0 && part.down == 0;
      if (!pushes && !isAt(i, velocity, time)) {
        sum -= part.speed + part.ramp * time > velocity ? part.up(way, time) : -part.down(way, time);
      }
    }
    return Math.max(0, sum);
  }

  /** Whether anything here changes with time while the body stands. */
  boolean isStill() {
    for (int i = 0; i < parts; i++) {
      if (limited[i].shareRate != 0 || limited[i].ramp != 0) {
        return false;
      }
    }
    return true;
  }

  /**
   * Fills in the power series of a free motion.
   *
   * @param way its terms, from the first
   * @return seconds for which it is as exact as is asked
   */
  double series(double velocity, double[] way) {
    double constant = pull;
    double gain = pullGain;
    double rate = 0;
    double both = 0;
    for (int i = 0; i < parts; i++) {
      Limited part = limited[i];
      double side = sign(part, velocity);
      double most = side > 0 ? part.up : part.down;
      if (most != 0) {
        constant += side * most * part.share * part.cover;
        gain += side * most * part.share * part.gain;
        rate += side * most * part.shareRate * part.cover;
        both += side * most * part.shareRate * part.gain;
      }
    }
    double forward = Math.signum(Math.abs(velocity) > NEAR ? velocity : acceleration);
    way[0] = 0;
    speeds[0] = velocity;
    boolean bent = drag > 0 || eddies > 0;
    for (int k = 0; k < ORDER; k++) {
      way[k + 1] = speeds[k] / (k + 1);
      double term = gain * way[k] + (k == 0 ? constant : both * way[k - 1]) + (k == 1 ? rate : 0);
      if (bent) {
        double square = 0;
        for (int i = 0; i <= k; i++) {
          square += speeds[i] * speeds[k - i];
        }
        squares[k] = square;
        term -= forward * drag * square;
      }
      for (int i = 0; i < rolls; i++) {
        term -= forward * roll[i].term(k, way);
      }
      for (int i = 0; i < eddies; i++) {
        term -= eddy[i].term(k, way, speeds, squares);
      }
      speeds[k + 1] = term / (k + 1);
    }
    return exactFor(way);
  }

  private double sign(Limited part, double velocity) {
    double difference = part.speed - velocity;
    return Math.abs(difference) > NEAR ? Math.signum(difference) : Math.signum(part.ramp - acceleration);
  }

  private static double exactFor(double[] way) {
    double last = Math.abs(way[ORDER]);
    double before = Math.abs(way[ORDER - 1]);
    double time = last == 0 ? Double.POSITIVE_INFINITY : Math.pow(TOLERANCE / last, 1.0 / ORDER);
    return before == 0 ? time : Math.min(time, Math.pow(TOLERANCE / before, 1.0 / (ORDER - 1)));
  }

  int parts() {
    return parts;
  }

  double speedOf(int part) {
    return limited[part].speed;
  }

  double rampOfPart(int part) {
    return limited[part].ramp;
  }

  /** The target of a part, where that is just the speed; else the speed. */
  double snapped(double velocity) {
    for (int i = 0; i < parts; i++) {
      if (Math.abs(limited[i].speed - velocity) <= NEAR) {
        return limited[i].speed;
      }
    }
    return Math.abs(velocity) <= NEAR ? 0 : velocity;
  }
}
