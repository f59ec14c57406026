package dev.pawl.plant.motion;

/** A chain that pushes a train's dog, and the rack of teeth that catches the train if it rolls back. */
public final class Lift extends Equipment {

  private final Data data;
  private final Ramp motor = new Ramp(0);
  private boolean running;
  private boolean lockHolds;
  private boolean holdsTrains = true;
  private boolean catches = true;
  private boolean whole = true;
  private boolean stuck;
  private boolean welded;
  private boolean dead;

  /**
   * What a lift is built as.
   *
   * @param ramp metres per second squared by which the drive changes the chain's speed
   * @param locked whether the chain is kept from running back while the drive is off
   * @param slip share by which the chain runs slower than its drive while it carries a train
   * @param push the greatest acceleration that the chain can give a train; infinite where it has no limit
   * @param drag newtons that it takes to move the empty chain
   * @param rack where the anti-rollback has teeth; without length where there is none
   * @param pitch metres from tooth to tooth, the most that a train can roll back
   */
  public record Data(double ramp, boolean locked, double slip, double push, double drag, Stretch rack, double pitch) {}

  public Lift(Stretch stretch, Data data) {
    super(stretch);
    this.data = data;
    lockHolds = data.locked();
  }

  Data data() {
    return data;
  }

  /** Commands the drive; without {@code run} the chain ramps to rest. Whether that is anything new. */
  boolean command(double time, boolean run, double reference) {
    boolean goesOn = welded && running && !run;
    boolean runs = (run || goesOn) && !dead;
    double target = !runs ? 0 : goesOn ? motor.target() : reference;
    if (stuck || running == runs && motor.target() == target) {
      return false;
    }
    running = runs;
    if (motor.target() != target) {
      motor.go(time, target, data.ramp());
    }
    return true;
  }

  /** A fault: the dog rides over the chain instead of holding. */
  public void letGo(boolean fault) {
    holdsTrains = !fault;
  }

  /** A fault: the anti-rollback fails to drop into its teeth. */
  public void jamCatch(boolean fault) {
    catches = !fault;
  }

  /** A fault: the lock does not hold the chain. */
  public void failLock(boolean fault) {
    lockHolds = data.locked() && !fault;
  }

  /** A fault: the chain is parted, pushes nothing and holds nothing. */
  public void part(boolean fault) {
    whole = !fault;
  }

  /** A fault: it goes on as it was commanded last. */
  public void stick(boolean fault) {
    stuck = fault;
  }

  /** A fault: its contactor is welded, so that a drive which runs goes on. */
  public void weld(boolean fault) {
    welded = fault;
  }

  /** A fault: its drive has no power. */
  public void starve(boolean fault) {
    dead = fault;
  }

  /** Whether the chain is whole, as its tension shows. */
  public boolean isTight() {
    return whole;
  }

  /** Speed of the drive, as metres per second of an unloaded chain. */
  public double motorSpeed(double time) {
    return motor.at(time);
  }

  @Override
  double nextChange(double time) {
    return motor.nextChange(time);
  }

  boolean holds(double time) {
    return holdsTrains && whole && (running || lockHolds || motor.at(time) > 0);
  }

  boolean catches() {
    return catches;
  }

  /** Metres from a dog back to the tooth below it. */
  double aboveTooth(double dogFromRack) {
    double above = dogFromRack % data.pitch();
    return data.pitch() - above < Route.NEAR ? 0 : Math.max(0, above);
  }

  @Override
  boolean letsMove(double time) {
    return holdsTrains && whole && motor.at(time) > 0;
  }

  /** Pushes a dog that is on the chain. */
  @Override
  void act(Piece piece, double time, double share, double gain) {
    double slipped = 1 - data.slip();
    piece.limited(motor.at(time) * slipped, motor.rateAt(time) * slipped, 1, 0, data.push(), 1, 0, 1, 0);
  }
}
