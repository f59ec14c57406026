package dev.pawl.mqtt.payload;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonPointer;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.binding.PayloadForm;
import dev.pawl.mqtt.binding.TopicBinding;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.trace.output.ValueSpelling;
import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.time.TimeWriter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Payloads that say a signal's value the way its binding states. */
public final class PayloadWriter {

  private static final JsonFactory FACTORY = new JsonFactory();

  private final TopicBinding[] bindings;
  private final ValueTexts[] texts;

  public PayloadWriter(RuleBook book, TopicBindings topicBindings) {
    bindings = new TopicBinding[book.signals().size()];
    texts = new ValueTexts[bindings.length];
    ValueSpelling values = new ValueSpelling(book.signals());
    for (TopicBinding binding : topicBindings.list()) {
      Signal signal = book.signals().get(binding.signal());
      bindings[signal.index()] = binding;
      texts[signal.index()] = new ValueTexts(signal, binding.conversion(), values);
    }
  }

  /** The binding of a signal; null if it has none. */
  public TopicBinding binding(int signal) {
    return bindings[signal];
  }

  /** The value as text, as a sender would write it; the empty string where no code of the binding stands for it. */
  public String text(int signal, long value) {
    return texts[signal].of(value);
  }

  /**
   * The payload for a plain or JSON binding.
   *
   * @param value an engine value, not unknown
   * @param time nanoseconds since 1970, for payloads that state the sender's time
   * @param traceTime nanoseconds, for payloads that state the time of the trace; {@link ReadingTaker#NO_TIME} where
   *     there is none
   * @return empty where no code of the binding stands for the value
   */
  public Optional<byte[]> payload(int signal, long value, long time, long traceTime) {
    String text = text(signal, value);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    if (bindings[signal].form() instanceof PayloadForm.Json json) {
      return Optional.of(json(json, texts[signal], text, time, traceTime));
    }
    return Optional.of(text.getBytes(StandardCharsets.UTF_8));
  }

  private static byte[] json(PayloadForm.Json form, ValueTexts texts, String text, long senderTime, long traceTime) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (JsonGenerator generator = FACTORY.createGenerator(bytes)) {
      List<Member> members = new ArrayList<>();
      members.add(new Member(segments(form.value()), () -> value(generator, texts, text)));
      form.time().ifPresent(stated -> {
        long time = stated.clock() == PayloadForm.Clock.TRACE ? traceTime : senderTime;
        if (time != ReadingTaker.NO_TIME) {
          members.add(new Member(segments(stated.pointer()), () -> time(generator, stated.scale(), time)));
        }
      });
      write(generator, members, 0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  /** Writes one thing. */
  private interface Writing {
    void write() throws IOException;
  }

  private record Member(List<String> path, Writing writing) {}

  private static List<String> segments(JsonPointer pointer) {
    List<String> segments = new ArrayList<>();
    for (JsonPointer at = pointer; !at.matches(); at = at.tail()) {
      segments.add(at.getMatchingProperty());
    }
    return segments;
  }

  /**
   * Writes the members, which agree in their first {@code depth} segments, into one object; array places become members
   * as well.
   */
  private static void write(JsonGenerator generator, List<Member> members, int depth) throws IOException {
    if (members.get(0).path().size() == depth) {
      members.get(0).writing().write();
      return;
    }
    generator.writeStartObject();
    List<Member> left = new ArrayList<>(members);
    while (!left.isEmpty()) {
      String name = left.get(0).path().get(depth);
      List<Member> same = left.stream().filter(m -> m.path().get(depth).equals(name)).toList();
      left.removeAll(same);
      generator.writeFieldName(name);
      write(generator, same, depth + 1);
    }
    generator.writeEndObject();
  }

  private static void value(JsonGenerator generator, ValueTexts texts, String text) throws IOException {
    if (texts.isBool()) {
      generator.writeBoolean(text.equals("1"));
    } else if (texts.isLiteral()) {
      generator.writeNumber(text);
    } else {
      generator.writeString(text);
    }
  }

  private static void time(JsonGenerator generator, TimeScale scale, long time) throws IOException {
    String text = TimeWriter.of(time, scale);
    if (scale == TimeScale.RFC_3339) {
      generator.writeString(text);
    } else {
      generator.writeNumber(text);
    }
  }
}
