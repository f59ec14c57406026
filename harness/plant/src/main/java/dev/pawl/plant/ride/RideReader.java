package dev.pawl.plant.ride;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.motion.Course;
import dev.pawl.plant.motion.Plant;
import dev.pawl.plant.motion.Train;
import dev.pawl.plant.text.Clauses;
import dev.pawl.plant.text.Key;
import dev.pawl.plant.text.Statement;
import dev.pawl.plant.text.StatementFile;
import dev.pawl.plant.text.Word;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Reads the statements of a ride file. Tracks come first, so that all else can say where it lies. */
final class RideReader {

  private static final Set<String> DESK = Set.of("desk", "act", "habit", "stop", "boarding");
  private static final List<String> KEYWORDS = List.of("ride", "track", "siding", "point", "cars", "train", "brake",
      "trim", "magnets", "tyres", "lift", "flag", "sensor", "air", "link", "desk", "act", "habit", "stop",
      "boarding");

  private final Diagnostics diagnostics;
  private final TrackReader tracks;
  private final Map<String, Word> names = new HashMap<>();
  private final Map<String, Train.Kind> kinds = new LinkedHashMap<>();
  private final List<Plant.Start> trains = new ArrayList<>();
  private final List<Word> trainWords = new ArrayList<>();
  private final List<Device> devices = new ArrayList<>();
  private final List<Flag> flags = new ArrayList<>();
  private final List<Sensor> sensors = new ArrayList<>();
  private final List<Link> links = new ArrayList<>();
  private final List<Statement> habits = new ArrayList<>();
  private final Map<String, Word> shown = new HashMap<>();
  private String rideName = "";
  private Air air;

  RideReader(Diagnostics diagnostics) {
    this.diagnostics = diagnostics;
    this.tracks = new TrackReader(diagnostics);
  }

  Ride read(Source source) {
    List<Statement> statements = StatementFile.read(source, diagnostics);
    Position end = new Position(source.name(), Math.max(1, source.text().split("\n", -1).length), 1, 1);
    statements.forEach(this::checkKeyword);
    statements.stream().filter(it -> it.keyword().is("siding")).forEach(this::readSiding);
    Course course = tracks.read(statements, end);
    statements.stream().filter(it -> it.keyword().is("cars")).forEach(this::readCars);
    statements.forEach(this::readOther);
    sensors.forEach(this::checkSensor);
    checkTrains(course, end);
    return new Ride(rideName, course, trains, devices, flags, sensors, Optional.ofNullable(air), links,
        habits);
  }

  private void checkKeyword(Statement statement) {
    Word keyword = statement.keyword();
    if (keyword.quoted() || !KEYWORDS.contains(keyword.text())) {
      diagnostics.error(keyword.position(), keyword.shown() + " begins no statement of a ride",
          NearName.hint(keyword.text(), KEYWORDS).orElse("a line begins with one of: " + String.join(", ", KEYWORDS)));
    }
  }

  private void readOther(Statement statement) {
    switch (statement.keyword().text()) {
      case "ride" -> readName(statement);
      case "train" -> named(statement).ifPresent(name -> readTrain(name, rest(statement)));
      case "brake" -> named(statement).ifPresent(name -> readBrake(name, rest(statement), false));
      case "trim" -> named(statement).ifPresent(name -> readBrake(name, rest(statement), true));
      case "magnets" -> named(statement).ifPresent(name -> readMagnets(name, rest(statement)));
      case "tyres" -> named(statement).ifPresent(name -> readTyres(name, rest(statement)));
      case "lift" -> named(statement).ifPresent(name -> devices.add(new LiftReader(tracks, diagnostics)
          .read(name, rest(statement))));
      case "flag" -> nameOf(statement, "the flag's signal").ifPresent(name -> readFlag(name, rest(statement)));
      case "sensor" -> nameOf(statement, "the signal that shows it").ifPresent(name ->
          readSensor(name, rest(statement)));
      case "link" -> named(statement).ifPresent(name -> readLink(name, rest(statement)));
      case "air" -> named(statement).ifPresent(name -> readAir(name, rest(statement)));
      default -> {
        if (DESK.contains(statement.keyword().text())) {
          habits.add(statement);
        }
      }
    }
  }

  private void readName(Statement statement) {
    if (statement.words().size() != 1 || !statement.words().get(0).quoted()) {
      diagnostics.error(statement.keyword().position(), "a ride has one name, in double quotes",
          "write ride \"My ride\"");
    } else {
      rideName = statement.words().get(0).text();
    }
  }

  private static List<Word> rest(Statement statement) {
    return statement.words().subList(1, statement.words().size());
  }

  private Optional<Word> nameOf(Statement statement, String what) {
    List<Word> words = statement.words();
    if (words.isEmpty() || !words.get(0).isName()) {
      diagnostics.error(words.isEmpty() ? Statement.behind(statement.head()) : words.get(0).position(),
          "here stands " + what, "write a name, such as " + statement.keyword().text() + " north ...");
      return Optional.empty();
    }
    return Optional.of(words.get(0));
  }

  /** The name of something that others refer to; no two things may share it. */
  private Optional<Word> named(Statement statement) {
    Optional<Word> name = nameOf(statement, "a name");
    name.ifPresent(this::claim);
    return name;
  }

  private void claim(Word name) {
    Word earlier = names.putIfAbsent(name.text(), name);
    if (earlier != null) {
      diagnostics.error(name.position(), "'" + name.text() + "' is the name of something else already",
          "it stands in line " + earlier.position().line() + "; choose another");
    }
  }

  private void readSiding(Statement statement) {
    named(statement).ifPresent(name -> {
      Clauses clauses = clauses(name, rest(statement), Key.place("at"), Key.quantity("length", Key.place("at")
          .dimension(), 1, 10_000, "40 m"), Key.name("thrown by", "SIGNAL"), Key.time("time"));
      int track = tracks.addSiding(name, clauses.number("length"), clauses.number("at"));
      clauses.required("thrown by").ifPresent(signal -> devices.add(new Device.SwitchDrive(name, track, signal,
          clauses.number("time", 0))));
    });
  }

  private Clauses clauses(Word name, List<Word> words, Key... keys) {
    return Clauses.read(name, words, List.of(keys), diagnostics);
  }

  private void readCars(Statement statement) {
    named(statement).ifPresent(name -> {
      Key length = Key.quantity("length", Key.place("at").dimension(), 0.1, 500, "12 m");
      Clauses clauses = clauses(name, rest(statement), length, Key.quantity("mass", Key.MASS, 1, 1e6, "7500 kg"),
          Key.number("rolling", 0, 1, "0.012"), Key.quantity("drag", Key.AREA, 0, 100, "3.5 m2"), Key.place("dog"),
          Key.quantity("target", length.dimension(), 0.01, 500, "2.5 m"),
          Key.quantity("gap", length.dimension(), 0.001, 500, "0.3 m"));
      double whole = clauses.number("length");
      double dog = clauses.number("dog", 0);
      if (dog > whole) {
        diagnostics.error(clauses.position(), "the dog of these cars is behind their tail",
            "dog counts from the nose back");
      }
      if (clauses.has("target") != clauses.has("gap")) {
        diagnostics.error(clauses.position(), "targets have a gap between them, and a gap is between targets",
            "write target 2.5 m gap 0.3 m, or neither");
      }
      kinds.put(name.text(), new Train.Kind(whole, clauses.number("mass"), clauses.number("rolling"),
          clauses.number("drag"), dog, clauses.number("target", whole), clauses.number("gap", 0)));
    });
  }

  private void readTrain(Word name, List<Word> words) {
    Clauses clauses = clauses(name, words, Key.name("of", "CARS"), Key.place("at"), Key.name("on", "SIDING"));
    Optional<Word> cars = clauses.required("of");
    double nose = clauses.number("at");
    int track = tracks.on(clauses);
    if (cars.isPresent() && !kinds.containsKey(cars.get().text())) {
      diagnostics.error(cars.get().position(), "there are no cars '" + cars.get().text() + "'",
          NearName.hint(cars.get().text(), kinds.keySet()).orElse("describe them: cars " + cars.get().text()
              + " length ..."));
    } else if (cars.isPresent() && tracks.lies(clauses, track, nose)) {
      trains.add(new Plant.Start(name.text(), kinds.get(cars.get().text()), track, nose, 0));
      trainWords.add(name);
    }
  }

  private void readBrake(Word name, List<Word> words, boolean trim) {
    List<Key> keys = new ArrayList<>(TrackReader.STRETCH);
    keys.add(Key.number("friction", 0.001, 10, "0.3"));
    keys.addAll(ACTUATOR);
    if (trim) {
      keys.add(Key.quantity("speed", Dimension.SPEED, 0.1, 60, "9 m/s"));
    }
    Clauses clauses = Clauses.read(name, words, keys, diagnostics);
    double speed = trim ? clauses.number("speed") : 0;
    devices.add(new Device.FrictionBrake(name, tracks.stretch(clauses), clauses.number("friction"), speed,
        actuator(clauses, true)));
  }

  private static final List<Key> ACTUATOR = List.of(Key.name("opens with", "SIGNAL"), Key.name("closes with",
      "SIGNAL"), Key.time("stroke"), Key.quantity("air", AirKeys.RATE, 0, 1e6, "0.2 psi/s"));

  private Device.Actuator actuator(Clauses clauses, boolean needed) {
    if (clauses.has("opens with") && clauses.has("closes with") || needed && !clauses.has("opens with")
        && !clauses.has("closes with")) {
      diagnostics.error(clauses.position(), "a brake is opened by one signal or closed by one",
          "write opens with SIGNAL or closes with SIGNAL");
    }
    return new Device.Actuator(clauses.name("opens with").or(() -> clauses.name("closes with")),
        clauses.has("opens with"), clauses.number("stroke", 0), clauses.number("air", 0));
  }

  private void readMagnets(Word name, List<Word> words) {
    List<Key> keys = new ArrayList<>(TrackReader.STRETCH);
    keys.add(Key.quantity("peak", Key.ACCELERATION, 0.001, 100, "4 m/s2"));
    keys.add(Key.quantity("at", Dimension.SPEED, 0.1, 60, "8 m/s"));
    keys.addAll(ACTUATOR);
    Clauses clauses = Clauses.read(name, words, keys, diagnostics);
    devices.add(new Device.MagneticBrake(name, tracks.stretch(clauses), clauses.number("peak"), clauses.number("at"),
        actuator(clauses, false)));
  }

  private void readTyres(Word name, List<Word> words) {
    List<Key> keys = new ArrayList<>(TrackReader.STRETCH);
    keys.add(Key.quantity("speed", Dimension.SPEED, 0.01, 60, "2 m/s"));
    keys.add(Key.quantity("acceleration", Key.ACCELERATION, 0.001, 100, "1.2 m/s2"));
    keys.add(Key.name("runs with", "SIGNAL"));
    keys.add(Key.name("reverses with", "SIGNAL"));
    Clauses clauses = Clauses.read(name, words, keys, diagnostics);
    if (!clauses.has("runs with") && !clauses.has("reverses with")) {
      diagnostics.error(clauses.position(), "no signal runs these tyres", "write runs with SIGNAL");
    }
    devices.add(new Device.TyreDrive(name, tracks.stretch(clauses), clauses.number("speed"),
        clauses.number("acceleration"), clauses.name("runs with"), clauses.name("reverses with")));
  }

  private void readFlag(Word signal, List<Word> words) {
    Clauses clauses = clauses(signal, words, Key.place("at"), Key.name("on", "SIDING"), Key.time("delay"),
        Key.time("filter"));
    claimSignal(signal);
    int track = tracks.on(clauses);
    double place = clauses.number("at");
    tracks.lies(clauses, track, place);
    flags.add(new Flag(signal, track, place, clauses.number("delay", 0), clauses.number("filter", 0)));
  }

  /** A signal is shown by one thing only. */
  private void claimSignal(Word signal) {
    Word earlier = shown.putIfAbsent(signal.text(), signal);
    if (earlier != null) {
      diagnostics.error(signal.position(), "'" + signal.text() + "' reports something else already",
          "it stands in line " + earlier.position().line() + "; a signal reports one thing");
    }
  }

  private void readSensor(Word signal, List<Word> words) {
    List<String> whats = Arrays.stream(Sensor.What.values()).map(Sensor.What::word).toList();
    Clauses clauses = clauses(signal, words, Key.name("shows", String.join("|", whats)), Key.name("of", "EQUIPMENT"),
        Key.time("every"), Key.time("delay"), Key.time("smoothed"), Key.amount("step", "0.1"), Key.amount("noise",
            "1 A"), Key.amount("change", "2 A"), Key.amount("most", "400 A"),
        Key.quantity("supply", AirKeys.VOLTAGE, 1, 100_000, "400 V"), Key.number("efficiency", 0.01, 1, "0.8"));
    claimSignal(signal);
    Optional<Word> what = clauses.required("shows");
    Optional<Word> device = clauses.required("of");
    if (what.isPresent() && !whats.contains(what.get().text())) {
      diagnostics.error(what.get().position(), "there is no '" + what.get().text() + "' to show",
          NearName.hint(what.get().text(), whats).orElse("there are " + String.join(", ", whats)));
    } else if (what.isPresent() && device.isPresent()) {
      Sensor.What shows = Sensor.What.values()[whats.indexOf(what.get().text())];
      double watts = shows == Sensor.What.CURRENT ? Math.sqrt(3) * clauses.number("supply")
          * clauses.number("efficiency") : 0;
      Sensor.Timing timing = new Sensor.Timing(clauses.number("every", 0), clauses.number("delay", 0),
          clauses.number("smoothed", 0));
      sensors.add(new Sensor(signal, shows, device.get(), timing, new Sensor.Accuracy(clauses.amount("step"),
          clauses.amount("noise"), clauses.amount("change"), clauses.amount("most")), watts));
    }
  }

  private void checkSensor(Sensor sensor) {
    Word named = sensor.device();
    Optional<Device> device = devices.stream().filter(it -> it.name().text().equals(named.text())).findFirst();
    boolean reservoir = air != null && air.name().text().equals(named.text());
    if (device.isEmpty() && !reservoir) {
      List<String> known = new ArrayList<>(devices.stream().map(it -> it.name().text()).toList());
      diagnostics.error(named.position(), "there is no equipment '" + named.text() + "'",
          NearName.hint(named.text(), known).orElse("describe it in this file"));
      return;
    }
    boolean fits = device.filter(it -> it.shows(sensor.what())).isPresent()
        || reservoir && sensor.what() == Sensor.What.PRESSURE;
    if (!fits) {
      diagnostics.error(named.position(), "'" + named.text() + "' has no " + sensor.what().word() + " to show",
          sensor.what() == Sensor.What.MOTOR ? "a lift has one that states its sprocket and gearbox"
              : "name equipment of another kind, or show something else of it");
    }
  }

  private void readLink(Word name, List<Word> words) {
    if (words.size() < 2 || !words.get(0).is("carries")) {
      diagnostics.error(words.isEmpty() ? name.position() : words.get(0).position(),
          "a link says which signals it carries", "write link " + name.text() + " carries SIGNAL SIGNAL ...");
    } else {
      links.add(new Link(name, words.subList(1, words.size())));
    }
  }

  private void readAir(Word name, List<Word> words) {
    if (air != null) {
      diagnostics.error(name.position(), "a ride has one air supply", "keep one");
    }
    Clauses clauses = clauses(name, words, AirKeys.pressure("starts"), AirKeys.pressure("low"),
        AirKeys.pressure("high"), AirKeys.rate("fills"), AirKeys.rate("leaks"), AirKeys.pressure("needed"));
    air = new Air(name, clauses.number("starts"), clauses.number("low"), clauses.number("high"),
        clauses.number("fills"), clauses.number("leaks", 0), clauses.number("needed", 0));
    if (air.high() < air.low()) {
      diagnostics.error(clauses.position(), "the compressor stops at less pressure than it starts at",
          "high has to be above low");
    }
  }

  private void checkTrains(Course course, Position end) {
    if (trains.isEmpty() && !diagnostics.hasErrors()) {
      diagnostics.error(end, "this ride has no train", "add train NAME of CARS at 20 m");
    }
    if (devices.size() + devices.stream().filter(Device.ChainLift.class::isInstance).count() > Plant.MOST_EQUIPMENT) {
      diagnostics.error(end, "a ride has at most " + Plant.MOST_EQUIPMENT + " pieces of equipment", "join some");
    }
    if (diagnostics.hasErrors()) {
      return;
    }
    for (int i = 0; i < trains.size(); i++) {
      Plant.Start train = trains.get(i);
      if (train.track() > 0 && course.switchPlace(train.track()) < train.kind().length()) {
        diagnostics.error(trainWords.get(i).position(), "the siding's switch is nearer to the track's start than a "
            + "train is long", "begin the track elsewhere");
      }
      for (int j = 0; j < i; j++) {
        if (overlap(course, train, trains.get(j))) {
          diagnostics.error(trainWords.get(i).position(), "'" + train.name() + "' stands in '" + trains.get(j).name()
              + "'", "a train reaches from its nose back by its length");
        }
      }
    }
  }

  private static boolean overlap(Course course, Plant.Start one, Plant.Start other) {
    if (one.track() != other.track()) {
      return false;
    }
    double length = one.track() == 0 ? course.length(0) : Double.POSITIVE_INFINITY;
    double ahead = one.nose() - other.nose();
    double round = ahead < 0 && one.track() == 0 ? ahead + length : ahead;
    return one.track() == 0 ? round < one.kind().length() || length - round < other.kind().length()
        : ahead >= 0 ? ahead < one.kind().length() : -ahead < other.kind().length();
  }
}
