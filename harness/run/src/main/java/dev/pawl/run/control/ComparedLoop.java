package dev.pawl.run.control;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.SourceJudge;
import dev.pawl.trace.feedback.Departure;
import dev.pawl.trace.feedback.Feedback;
import dev.pawl.trace.feedback.OpenLoop;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** A controller's answers to a recording beside those recorded, and what a report has to say of the difference. */
final class ComparedLoop {

  private final Feedback feedback;
  private final RuleBook book;
  private final OpenLoop loop;

  /**
   * The comparison for one run.
   *
   * @param judge takes what controller and recording give together
   */
  ComparedLoop(Feedback feedback, EventSink judge) {
    this.feedback = feedback;
    this.book = feedback.book();
    this.loop = new OpenLoop(feedback, judge);
  }

  OpenLoop loop() {
    return loop;
  }

  /** The differences because of which signals of a rule are unknown, the first one for each signal. */
  List<DepartureResult> departures(Rule rule) {
    List<DepartureResult> results = new ArrayList<>();
    Set<Integer> signals = feedback.feedbackIn(rule);
    for (Departure departure : loop.departures()) {
      List<Integer> unknown = signals.stream().filter(signal -> feedback.followedBy(signal)
          .contains(departure.output())).toList();
      if (!unknown.isEmpty()) {
        results.add(result(departure, names(unknown)));
        unknown.forEach(signals::remove);
      }
    }
    return results;
  }

  private DepartureResult result(Departure departure, List<String> unknown) {
    return new DepartureResult(name(departure.output()), departure.time(), text(departure, departure.recorded()),
        text(departure, departure.computed()), unknown);
  }

  private String text(Departure departure, long value) {
    return ValueText.of(book.signals().get(departure.output()).type(), value);
  }

  /** The outputs without recorded values because of which a rule rests on recorded signals only. */
  List<String> unrecorded(Rule rule) {
    return names(feedback.restsOn(rule, loop::isRecorded));
  }

  List<Reading.Counter> counters(TimeBase base) {
    List<Reading.Counter> counters = new ArrayList<>();
    List<Integer> recorded = feedback.moving().stream().filter(loop::isRecorded).toList();
    List<Integer> others = feedback.moving().stream().filter(output -> !loop.isRecorded(output)).toList();
    if (!recorded.isEmpty()) {
      counters.add(new Reading.Counter("outputs compared with those recorded; the same as long as they come no more "
          + "than "
          + recorded.stream().map(feedback::late).distinct().sorted().map(TimeText::duration)
              .collect(Collectors.joining(", "))
          + " sooner or later", recorded.size()));
    }
    if (!others.isEmpty()) {
      counters.add(new Reading.Counter("outputs that the trace has no values of, or not from their first change on: "
          + String.join(", ", names(others)), others.size()));
    }
    for (Departure departure : loop.departures()) {
      List<String> unknown = names(feedback.followers(departure.output()));
      counters.add(new Reading.Counter("first difference from a recorded output: "
          + FindingWords.departure(result(departure, unknown), base) + "; unknown after that: "
          + SourceJudge.names(unknown), 1));
    }
    return counters;
  }

  private List<String> names(Collection<Integer> signals) {
    return signals.stream().map(this::name).toList();
  }

  private String name(int signal) {
    return book.signals().get(signal).name();
  }
}
