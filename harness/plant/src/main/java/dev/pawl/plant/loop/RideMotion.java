package dev.pawl.plant.loop;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.plant.motion.ActuatedBrake;
import dev.pawl.plant.motion.BeyondModel;
import dev.pawl.plant.motion.Brake;
import dev.pawl.plant.motion.Equipment;
import dev.pawl.plant.motion.Lift;
import dev.pawl.plant.motion.Magnets;
import dev.pawl.plant.motion.MotionListener;
import dev.pawl.plant.motion.Plant;
import dev.pawl.plant.motion.Train;
import dev.pawl.plant.motion.Tyres;
import dev.pawl.plant.ride.Device;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.ride.Sensor;
import dev.pawl.plant.scenario.Doing;
import dev.pawl.plant.scenario.Fault;
import dev.pawl.plant.scenario.Hands;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.text.Word;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.DoubleSupplier;
import java.util.stream.IntStream;

/**
 * A ride between the values of its outputs and those of its inputs, moved on scan by scan. Values are as rules have
 * them:
 * 0 or 1, the number of a name, or a number in SI base units; signals have their numbers in the rules.
 */
public final class RideMotion {

  /** The equipment that trains meet; a switch only leads them. */
  private static final Device.Visitor<Optional<Equipment>> BUILT = new Device.Visitor<>() {
    @Override
    public Optional<Equipment> visit(Device.FrictionBrake it) {
      return Optional.of(new Brake(it.stretch(), it.friction(), it.speed(), it.actuator().stroke(),
          it.actuator().opens()));
    }

    @Override
    public Optional<Equipment> visit(Device.MagneticBrake it) {
      return Optional.of(new Magnets(it.stretch(), it.peak(), it.speed(), it.actuator().stroke(),
          it.actuator().opens() || it.actuator().signal().isEmpty()));
    }

    @Override
    public Optional<Equipment> visit(Device.TyreDrive it) {
      return Optional.of(new Tyres(it.stretch(), it.speed(), it.acceleration()));
    }

    @Override
    public Optional<Equipment> visit(Device.ChainLift it) {
      return Optional.of(new Lift(it.stretch(), it.data()));
    }

    @Override public Optional<Equipment> visit(Device.SwitchDrive it) { return Optional.empty(); }
  };

  /** Further back than this no backstop may let a train come: 150 mm (Quebec S-3, r. 1, section 25). */
  private static final double FURTHEST_BACK = 0.15;
  /** Scans between looks at where trains truly are. */
  private static final int LOOK_EVERY = 10;

  private final Ride ride;
  private final RuleBook book;
  private final double scanTime;
  private final double[] image;
  /** By signal: the one that its wire leads to. */
  private final int[] arrives;
  private final Set<List<Integer>> swapped = new HashSet<>();
  private final Map<String, Boolean> stuckSwitches = new HashMap<>();
  private final Plant plant;
  private final Map<String, Equipment> equipment = new HashMap<>();
  private final List<Runnable> commands = new ArrayList<>();
  private final List<int[]> switchSignals = new ArrayList<>();
  private final List<BooleanSupplier> switches = new ArrayList<>();
  private final int[] flagSignals;
  private final List<Gauge> gauges = new ArrayList<>();
  private final List<Integer> gaugeSignals = new ArrayList<>();
  private final List<DoubleSupplier> airUsers = new ArrayList<>();
  private final Flags flags;
  private final Hands hands;
  private final Messages messages;
  private final Optional<AirSupply> air;
  private final Truth truth = new Truth();
  private final Occupancy occupancy;
  private final ForbiddenMotion forbidden;
  private final Follower follower;
  private Consumer<Doing.Cut> power = cut -> {};
  private boolean commanded = true;
  private boolean aired = true;
  private double now;

  /**
   * A ride at the start of a scenario, whose names have been checked against the rules.
   *
   * @param scanTime seconds from scan to scan
   */
  public RideMotion(Ride ride, Scenario scenario, RuleBook book, double scanTime) {
    this.ride = ride;
    this.book = book;
    this.scanTime = scanTime;
    image = new double[book.signals().size()];
    arrives = IntStream.range(0, image.length).toArray();
    List<Equipment> pieces = new ArrayList<>();
    for (Device device : ride.devices()) {
      device.accept(BUILT).ifPresent(piece -> {
        equipment.put(device.name().text(), piece);
        pieces.add(piece);
      });
    }
    plant = new Plant(ride.course(), pieces, ride.trains());
    air = ride.air().map(AirSupply::new);
    flags = new Flags(ride.flags(), plant);
    flagSignals = ride.flags().stream().mapToInt(flag -> signal(flag.signal()).index()).toArray();
    hands = new Hands(scenario, image, new Failing());
    messages = new Messages(image);
    occupancy = new Occupancy(book, ride.flags(), plant, truth);
    forbidden = new ForbiddenMotion(scenario.desk(), plant, this::name, truth);
    follower = new Follower(hands.minds());
    plant.listen(follower);
    Commanded commanded = new Commanded();
    ride.devices().forEach(device -> device.accept(commanded).ifPresent(commands::add));
    Random noise = new Random(scenario.seed());
    ride.sensors().forEach(sensor -> sense(sensor, noise));
  }

  private Signal signal(Word name) {
    return signal(name.text());
  }

  private Signal signal(String name) {
    return book.signals().stream().filter(it -> it.name().equals(name)).findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no signal " + name));
  }

  private boolean on(int signal) {
    return messages.arrived()[signal] != 0;
  }

  /** What a scan does that the outputs command a piece of equipment. */
  private final class Commanded implements Device.Visitor<Optional<Runnable>> {

    @Override
    public Optional<Runnable> visit(Device.FrictionBrake it) {
      return Optional.of(actuate(it.name(), it.actuator()));
    }

    @Override
    public Optional<Runnable> visit(Device.MagneticBrake it) {
      return it.actuator().signal().map(signal -> actuate(it.name(), it.actuator()));
    }

    @Override
    public Optional<Runnable> visit(Device.TyreDrive it) {
      Tyres tyres = (Tyres) equipment.get(it.name().text());
      int forward = it.runs().map(word -> signal(word).index()).orElse(-1);
      int backward = it.reverses().map(word -> signal(word).index()).orElse(-1);
      return Optional.of(() -> plant.drive(tyres, (forward >= 0 && on(forward) ? 1 : 0)
          - (backward >= 0 && on(backward) ? 1 : 0)));
    }

    @Override
    public Optional<Runnable> visit(Device.ChainLift it) {
      Lift lift = (Lift) equipment.get(it.name().text());
      int runs = signal(it.runs()).index();
      int reference = it.reference().map(word -> signal(word).index()).orElse(-1);
      int works = it.works().map(word -> signal(word).index()).orElse(-1);
      return Optional.of(() -> plant.run(lift, on(runs), reference >= 0 ? messages.arrived()[reference]
          : works < 0 || on(works) ? it.working() : it.idle()));
    }

    @Override
    public Optional<Runnable> visit(Device.SwitchDrive it) {
      int thrown = signal(it.thrown()).index();
      stuckSwitches.put(it.name().text(), false);
      return Optional.of(() -> {
        if (!stuckSwitches.get(it.name().text())) {
          plant.turn(it.track(), on(thrown), it.time());
        }
      });
    }
  }

  private Runnable actuate(Word name, Device.Actuator actuator) {
    ActuatedBrake brake = (ActuatedBrake) equipment.get(name.text());
    int index = signal(actuator.signal().orElseThrow()).index();
    if (actuator.air() > 0) {
      airUsers.add(() -> on(index) == actuator.opens() ? actuator.air() : 0);
    }
    return () -> {
      boolean opened = on(index) == actuator.opens();
      boolean held = !actuator.opens() || air.isEmpty() || air.get().isEnough(now);
      plant.close(brake, !(opened && held));
    };
  }

  private void sense(Sensor sensor, Random noise) {
    Signal signal = signal(sensor.signal());
    Equipment piece = equipment.get(sensor.device().text());
    if (sensor.what().isSwitch()) {
      switchSignals.add(new int[] {signal.index()});
      switches.add(switchOf(sensor, piece));
      return;
    }
    DoubleSupplier source = switch (sensor.what()) {
      case SPEED -> () -> plant.chainSpeed((Lift) piece);
      case MOTOR -> {
        Device.ChainLift lift = (Device.ChainLift) device(sensor.device().text());
        yield () -> ((Lift) piece).motorSpeed(now) * lift.speedOfMotor();
      }
      case CURRENT -> () -> drawn((Lift) piece, (Device.ChainLift) device(sensor.device().text()))
          / sensor.supply();
      default -> () -> air.orElseThrow().at(now);
    };
    gauges.add(new Gauge(sensor, (ValueType.Quantity) signal.type(), source, noise));
    gaugeSignals.add(signal.index());
  }

  private String name(Equipment piece) {
    return equipment.entrySet().stream().filter(it -> it.getValue() == piece).findFirst().orElseThrow().getKey();
  }

  private Device device(String name) {
    return named(name).orElseThrow();
  }

  private Optional<Device> named(String name) {
    return ride.devices().stream().filter(it -> it.name().text().equals(name)).findFirst();
  }

  /** Watts that a lift's drive gives. */
  private double drawn(Lift lift, Device.ChainLift data) {
    double speed = lift.motorSpeed(now);
    return speed == 0 ? 0 : speed * (plant.load(lift) + data.data().drag());
  }

  private BooleanSupplier switchOf(Sensor sensor, Equipment piece) {
    int siding = ride.siding(sensor.device().text());
    return switch (sensor.what()) {
      case CLOSED -> () -> ((ActuatedBrake) piece).isClosed(now);
      case OPEN -> () -> ((ActuatedBrake) piece).isOpen(now);
      case TENSION -> () -> ((Lift) piece).isTight();
      case SIDING -> () -> plant.isThrown(siding);
      default -> () -> plant.isMain(siding);
    };
  }

  /** What fails in a scenario. */
  private final class Failing implements Hands.Failing {
    @Override
    public void fail(Doing.Fail it) {
      RideMotion.this.fail(it);
    }

    @Override
    public void swap(Doing.Swap it) {
      RideMotion.this.swap(it);
    }

    @Override
    public void cut(Doing.Cut it) {
      power.accept(it);
    }
  }

  private void fail(Doing.Fail fail) {
    Optional<Device> device = named(fail.device());
    boolean begins = fail.begins();
    if (device.isPresent()) {
      device.get().accept(new FailingDevice(fail));
    } else if (air.isPresent() && ride.air().orElseThrow().name().text().equals(fail.device())) {
      if (fail.fault() == Fault.LOST) {
        air.get().lose(now, begins);
      } else {
        air.get().starve(now, begins);
      }
    } else if (fail.fault() == Fault.SILENT || !isFlag(fail.device())) {
      carried(fail.device()).forEach(signal -> messages.fail(signal, fail));
    } else {
      flags.fail(fail.device(), fail.fault(), begins ? fail.amount() : 0);
    }
    commanded = true;
  }

  private boolean isFlag(String name) {
    return ride.flags().stream().anyMatch(it -> it.signal().text().equals(name));
  }

  /** The signals that a link of this name carries, else the signal of this name. */
  private List<Integer> carried(String name) {
    return ride.links().stream().filter(it -> it.name().text().equals(name)).findFirst()
        .map(link -> link.signals().stream().map(it -> signal(it).index()).toList())
        .orElseGet(() -> List.of(signal(name).index()));
  }

  /** Lets equipment fail in one of its ways ({@code Failures}), or mends it. */
  private final class FailingDevice implements Device.Visitor<Void> {

    private final Doing.Fail fail;
    private final boolean begins;

    FailingDevice(Doing.Fail fail) {
      this.fail = fail;
      this.begins = fail.begins();
    }

    private <T extends Equipment> Void change(Class<T> kind, Consumer<T> change) {
      T piece = kind.cast(equipment.get(fail.device()));
      plant.change(piece, () -> change.accept(piece));
      return null;
    }

    @Override
    public Void visit(Device.FrictionBrake it) {
      return change(Brake.class, brake -> {
        switch (fail.fault()) {
          case WEAK -> brake.weaken(begins ? fail.amount() : 1);
          case SLOW -> brake.slow(begins ? fail.amount() : it.actuator().stroke());
          default -> brake.stick(begins);
        }
      });
    }

    @Override public Void visit(Device.MagneticBrake it) { return null; }

    @Override
    public Void visit(Device.TyreDrive it) {
      return change(Tyres.class, tyres -> {
        switch (fail.fault()) {
          case WELDED -> tyres.weld(begins);
          case DEAD -> tyres.starve(begins);
          default -> tyres.stick(begins);
        }
      });
    }

    @Override
    public Void visit(Device.ChainLift it) {
      return change(Lift.class, lift -> {
        switch (fail.fault()) {
          case SLIPPING -> lift.letGo(begins);
          case PARTED -> lift.part(begins);
          case JAMMED -> lift.jamCatch(begins);
          case UNLOCKED -> lift.failLock(begins);
          case WELDED -> lift.weld(begins);
          case DEAD -> lift.starve(begins);
          default -> lift.stick(begins);
        }
      });
    }

    @Override
    public Void visit(Device.SwitchDrive it) {
      stuckSwitches.put(fail.device(), begins);
      return null;
    }
  }

  /** From now on what one signal is told arrives at the other, or no more. */
  private void swap(Doing.Swap swap) {
    List<Integer> pair = List.of(Math.min(swap.signal(), swap.other()), Math.max(swap.signal(), swap.other()));
    if (swap.begins() ? swapped.add(pair) : swapped.remove(pair)) {
      int one = arrives[swap.signal()];
      arrives[swap.signal()] = arrives[swap.other()];
      arrives[swap.other()] = one;
      if (isOutput(swap.signal())) {
        double value = image[swap.signal()];
        image[swap.signal()] = image[swap.other()];
        image[swap.other()] = value;
      }
      commanded = true;
    }
  }

  private boolean isOutput(int signal) {
    return book.signals().get(signal).direction() != Signal.Direction.INPUT;
  }

  /** From now on that is told of power cuts, at the scan at which they begin. */
  void cuts(Consumer<Doing.Cut> taker) {
    power = taker;
  }

  /** The value of an input as the controller is told it. */
  public double value(int signal) {
    return messages.arrived()[signal];
  }

  /** Takes the value of an output. */
  public void set(int signal, double value) {
    int wire = arrives[signal];
    if (image[wire] != value) {
      image[wire] = value;
      commanded = true;
    }
  }

  /**
   * Obeys the outputs from the scan before on, and puts the inputs of this one in place.
   *
   * @throws BeyondModel where the model cannot go on
   */
  public void move(long scan) {
    double time = scan * scanTime;
    if (scan > 0) {
      commanded |= messages.look(now);
      boolean enough = air.isEmpty() || air.get().isEnough(now);
      if (commanded || enough != aired) {
        aired = enough;
        obey();
      }
      plant.advance(time);
    }
    now = time;
    for (int i = 0; i < flagSignals.length; i++) {
      hands.sense(arrives[flagSignals[i]], flags.at(i, time) ? 1 : 0);
    }
    for (int i = 0; i < switches.size(); i++) {
      hands.sense(arrives[switchSignals.get(i)[0]], switches.get(i).getAsBoolean() ? 1 : 0);
    }
    for (int i = 0; i < gauges.size(); i++) {
      hands.sense(arrives[gaugeSignals.get(i)], gauges.get(i).at(time));
    }
    hands.act(time);
    if (scan == 0) {
      occupancy.begin(image);
    }
    messages.look(time);
    occupancy.look(messages.arrived(), time, scan % LOOK_EVERY == 0);
    forbidden.look(image, time);
  }

  private void obey() {
    commanded = false;
    for (int i = 0; i < commands.size(); i++) {
      commands.get(i).run();
    }
    air.ifPresent(it -> it.use(now, airUsers.stream().mapToDouble(DoubleSupplier::getAsDouble).sum()));
  }

  /** Paths of its trains, to be drawn by whoever looks. */
  TrainPaths newPaths() {
    return new TrainPaths(plant);
  }

  /** The zones of the rules that lie between two flags of the circuit. */
  List<TrainPaths.Zone> zones() {
    return occupancy.zones();
  }

  /** What was done and what failed up to now, the first of it. */
  List<Scenario.Timed> done() {
    return hands.done();
  }

  /** What truly happened up to now. */
  public Truth truth() {
    return truth;
  }

  /** The smallest gap in metres between a train and the one ahead. */
  public double smallestGap() {
    return plant.smallestGap();
  }

  /** Whoever follows trains: the flags, the scenario, and the truth. */
  private final class Follower implements MotionListener {

    private final boolean passings;
    private final double[] noses = new double[plant.trains().size()];
    private final int[] tracks = new int[plant.trains().size()];
    private final double[] turned = new double[plant.trains().size()];
    /** Whether it need not be told of: it is told already, or no roll-back. */
    private final boolean[] tells = new boolean[plant.trains().size()];

    Follower(boolean passings) {
      this.passings = passings;
      Arrays.fill(turned, Double.NaN);
      plant.trains().forEach(train -> noses[train.index()] = train.nose(0));
      plant.trains().forEach(train -> tracks[train.index()] = train.track());
    }

    @Override
    public void moved(Train train, double from, double to) {
      int index = train.index();
      double start = train.track() == tracks[index] ? noses[index] : train.nose(from);
      double nose = train.nose(to);
      tracks[index] = train.track();
      noses[index] = nose;
      flags.moved(train, from, to, nose);
      if (passings) {
        double at = ride.course().switchPlace(train.track());
        double round = train.track() == 0 ? ride.course().length(0) : Double.POSITIVE_INFINITY;
        double before = start - at;
        double lap = Double.isInfinite(round) ? 0 : Math.floor(before / round) * round;
        hands.passed(train.track(), before - lap, nose - at - lap, to);
      }
      back(train, start, nose, to);
    }

    /** Follows a train that comes back by itself: no drive turns backward under it. */
    private void back(Train train, double start, double nose, double to) {
      int index = train.index();
      if (nose >= start) {
        turned[index] = nose;
        tells[index] = false;
        return;
      }
      if (Double.isNaN(turned[index])) {
        turned[index] = start;
      }
      // What a drive has turned round comes back because it shall, also when the drive has let go of it.
      tells[index] |= plant.isDrivenBack(train);
      if (!tells[index] && turned[index] - nose > FURTHEST_BACK) {
        tells[index] = true;
        double place = (turned[index] - ride.course().switchPlace(train.track())) % ride.course().length(0);
        truth.add(Truth.Kind.ROLL_BACK, to, String.format(Locale.ROOT,
            "a train rolled back: %s by more than %.0f mm, from %.2f m", train.name(), FURTHEST_BACK * 1000, place),
            true);
      }
    }

    @Override
    public void touched(Train behind, Train ahead, double time, double speed) {
      truth.add(Truth.Kind.CONTACT, time, String.format(Locale.ROOT, "trains touched: %s and %s, by %.2f m/s",
          behind.name(), ahead.name(), speed), true);
    }

    @Override
    public void strayed(Train train, double time, String what) {
      truth.add(Truth.Kind.STRAYED, time, "a train left its way: " + train.name() + " " + what, true);
    }
  }
}
