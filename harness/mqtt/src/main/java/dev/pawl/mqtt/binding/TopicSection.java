package dev.pawl.mqtt.binding;

import com.fasterxml.jackson.core.JsonPointer;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.bindings.Conversion;
import dev.pawl.trace.bindings.ConversionReader;
import dev.pawl.trace.bindings.Entry;

import dev.pawl.trace.bindings.Token;
import dev.pawl.trace.time.TimeScale;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads the entries of the section {@code topics}, collecting everything that is wrong. */
final class TopicSection {

  private static final String USAGE =
      "write: SIGNAL on \"TOPIC\", or: SIGNAL on \"TOPIC\" json \"/POINTER\" [trace] time \"/POINTER\" UNIT,"
      + " or: SIGNAL on sparkplug \"GROUP/NODE/DEVICE\" metric \"NAME\"; then if need be a conversion, as for"
          + " 'signals'";

  private final BindingsFile file;
  private final RuleBook book;
  private final List<Diagnostic> diagnostics;
  private final List<TopicBinding> bindings = new ArrayList<>();
  private final Map<Integer, Position> boundSignals = new HashMap<>();
  private final Map<String, Position> boundPlaces = new HashMap<>();
  private List<Token> tokens;
  private int at;

  TopicSection(BindingsFile file, RuleBook book) {
    this.file = file;
    this.book = book;
    this.diagnostics = new ArrayList<>(file.diagnostics());
  }

  TopicBindings.Resolved resolve() {
    file.entries(TopicBindings.SECTION).forEach(this::entry);
    return new TopicBindings.Resolved(new TopicBindings(bindings), diagnostics);
  }

  private void entry(Entry entry) {
    tokens = entry.tokens();
    at = 2;
    if (tokens.size() < 3 || !tokens.get(1).is("on")) {
      error(entry.position(), "an entry of 'topics' says on which topic a signal is", USAGE);
      return;
    }
    Optional<Signal> signal = signal(tokens.get(0));
    if (signal.isEmpty()) {
      return;
    }
    boolean sparkplug = tokens.get(2).is("sparkplug");
    Optional<TopicBinding> place = sparkplug ? sparkplug(entry, signal.get()) : topic(entry, signal.get());
    if (place.isEmpty()) {
      return;
    }
    Optional<Conversion> conversion = new ConversionReader(signal.get().type(), diagnostics).read(entry, at);
    conversion.ifPresent(c -> add(new TopicBinding(signal.get().index(), place.get().topic(), place.get().form(), c,
        entry.position())));
  }

  private void add(TopicBinding binding) {
    String place = place(binding);
    Position samePlace = boundPlaces.putIfAbsent(place, binding.position());
    Position sameSignal = boundSignals.putIfAbsent(binding.signal(), binding.position());
    if (samePlace != null) {
      error(binding.position(), place + " is bound already, in line " + samePlace.line(),
          "bind each place to one signal");
    } else if (sameSignal != null) {
      error(binding.position(), "signal '" + book.signals().get(binding.signal()).name()
          + "' is bound already, in line "
          + sameSignal.line(), "bind each signal to one place");
    } else {
      bindings.add(binding);
    }
  }

  private static String place(TopicBinding binding) {
    String topic = "topic '" + binding.topic() + "'";
    return binding.form().match(plain -> topic, json -> topic + " at '" + json.value() + "'",
        sparkplug -> "metric '" + sparkplug.metric() + "' of " + sparkplug.source());
  }

  private Optional<Signal> signal(Token name) {
    Optional<Signal> found = book.signals().stream().filter(s -> s.name().equals(name.text())).findFirst();
    if (found.isEmpty()) {
      String hint = NearName.hint(name.text(), book.signals().stream().map(Signal::name).toList())
          .orElse("declare it in a rule file, or leave this line out");
      error(name.position(), "the rules declare no signal '" + name.text() + "'", hint);
    }
    return found;
  }

  private Optional<TopicBinding> topic(Entry entry, Signal signal) {
    Token topic = tokens.get(at++);
    Optional<String> problem = TopicName.problem(topic.text());
    if (problem.isPresent()) {
      return error(topic.position(), problem.get(), "write the one topic on which the signal's messages come");
    }
    PayloadForm form = new PayloadForm.Plain();
    if (at < tokens.size() && tokens.get(at).is("plain")) {
      at++;
    } else if (at < tokens.size() && tokens.get(at).is("json")) {
      Optional<PayloadForm> json = json();
      if (json.isEmpty()) {
        return Optional.empty();
      }
      form = json.get();
    }
    return Optional.of(new TopicBinding(signal.index(), topic.text(), form, new Conversion.Plain(), entry.position()));
  }

  private Optional<PayloadForm> json() {
    Token word = tokens.get(at++);
    if (at >= tokens.size()) {
      return error(word.position(), "'json' needs a pointer to the value after it", "such as: json \"/speed\"");
    }
    Optional<JsonPointer> value = pointer(tokens.get(at++));
    if (value.isEmpty()) {
      return Optional.empty();
    }
    boolean ofTrace = at + 1 < tokens.size() && tokens.get(at).is("trace") && tokens.get(at + 1).is("time");
    if (!ofTrace && (at >= tokens.size() || !tokens.get(at).is("time"))) {
      return Optional.of(new PayloadForm.Json(value.get(), Optional.empty()));
    }
    PayloadForm.Clock clock = ofTrace ? PayloadForm.Clock.TRACE : PayloadForm.Clock.SENDER;
    at += ofTrace ? 1 : 0;
    Token timeWord = tokens.get(at++);
    if (at + 1 >= tokens.size()) {
      return error(timeWord.position(), "'time' needs a pointer and a unit after it", "such as: time \"/ts\" ms");
    }
    Optional<JsonPointer> time = pointer(tokens.get(at++));
    Token unit = tokens.get(at++);
    Optional<TimeScale> scale = TimeScale.of(unit.text());
    if (scale.isEmpty()) {
      return error(unit.position(), "'" + unit.text() + "' is no unit of time", "use " + TimeScale.CHOICES);
    }
    return time.map(t -> new PayloadForm.Json(value.get(), Optional.of(new PayloadForm.StatedTime(clock, t,
        scale.get()))));
  }

  private Optional<JsonPointer> pointer(Token token) {
    try {
      return Optional.of(JsonPointer.compile(token.text()));
    } catch (IllegalArgumentException e) {
      return error(token.position(), "'" + token.text() + "' is no JSON pointer (RFC 6901)",
          "it is empty for the whole text, or starts with /, such as \"/drive/speed\"");
    }
  }

  private Optional<TopicBinding> sparkplug(Entry entry, Signal signal) {
    at++;
    if (at + 2 >= tokens.size() || !tokens.get(at + 1).is("metric")) {
      return error(entry.position(), "'sparkplug' needs a node and a metric after it",
          "such as: sparkplug \"park/lift-plc/drive\" metric \"Speed\"");
    }
    Token source = tokens.get(at);
    Token metric = tokens.get(at + 2);
    at += 3;
    Optional<SparkplugSource> parsed = SparkplugSource.parse(source.text());
    if (parsed.isEmpty()) {
      return error(source.position(), "'" + source.text() + "' is no Sparkplug node",
          "write GROUP/NODE or GROUP/NODE/DEVICE");
    }
    Optional<String> problem = TopicName.problem(parsed.get().commandTopic());
    if (problem.isPresent()) {
      return error(source.position(), problem.get(), "write GROUP/NODE or GROUP/NODE/DEVICE");
    }
    return Optional.of(new TopicBinding(signal.index(), parsed.get().commandTopic(),
        new PayloadForm.Sparkplug(parsed.get(), metric.text()), new Conversion.Plain(), entry.position()));
  }

  private <T> Optional<T> error(Position position, String message, String hint) {
    diagnostics.add(Diagnostic.error(position, message, hint));
    return Optional.empty();
  }
}
