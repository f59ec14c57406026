package dev.pawl.report.model;

import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.RuleBook;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Everything that one run has to say.
 *
 * @param version version of the tool
 * @param created when it was made, as RFC 3339, or the empty string
 * @param partial whether the run was interrupted, so that it covers only a part of what was asked
 * @param ride name of the ride, or the empty string
 * @param inputs the files it rests on
 * @param traces one result per trace, in the order in which they were given
 * @param cautions what a reader has to bear in mind about this run, beyond the cautions that every report carries
 * @param book the rules that it judged by
 * @param decisions what persons have decided about it
 * @param proofRequired whether what is undecided or not exercised fails the run
 * @param build which build of the version it is, such as its commit; empty where nothing says
 * @param earlier what changed since an earlier report, where one was given
 */
public record Report(String version, String created, boolean partial, String ride, List<Input> inputs,
    List<TraceResult> traces, List<String> cautions, RuleBook book, Decisions decisions, boolean proofRequired,
    String build, Optional<Earlier> earlier) {

  /** A report about which nobody has decided anything. */
  public Report(String version, String created, boolean partial, String ride, List<Input> inputs,
      List<TraceResult> traces, List<String> cautions, RuleBook book) {
    this(version, created, partial, ride, inputs, traces, cautions, book, Decisions.NONE, false, "",
        Optional.empty());
  }

  public Report {
    cautions = List.copyOf(cautions);
    inputs = List.copyOf(inputs);
    traces = List.copyOf(traces);
  }

  /** The same, made at another moment. */
  public Report made(Instant at) {
    return new Report(version, at.toString(), partial, ride, inputs, traces, cautions, book, decisions, proofRequired,
        build, earlier);
  }

  /** The same, made by a build. */
  public Report by(String which) {
    return new Report(version, created, partial, ride, inputs, traces, cautions, book, decisions, proofRequired, which,
        earlier);
  }

  /** The same with what persons have decided, which is among what it rests on. */
  public Report decided(Decisions others, List<Input> files) {
    return new Report(version, created, partial, ride, files, traces, cautions, book, others, proofRequired, build,
        earlier);
  }

  /** The same with what changed since an earlier report, which is then among what it rests on, where that is known. */
  public Report since(Earlier changes, Input file) {
    List<Input> files = new ArrayList<>(inputs);
    if (!files.isEmpty()) {
      files.add(file);
    }
    return new Report(version, created, partial, ride, files, traces, cautions, book, decisions, proofRequired, build,
        Optional.of(changes));
  }

  /** The same where what is undecided or not exercised fails the run. */
  public Report requiringProof(boolean required) {
    return new Report(version, created, partial, ride, inputs, traces, cautions, book, decisions, required, build,
        earlier);
  }

  /** Its short name, by what it rests on and what was found. */
  public String identity() {
    return RunIdentity.of(this);
  }

  /** Reviews of another report: what they say was looked at is not this one. */
  public List<Review> reviewsOfOthers() {
    String own = identity();
    return decisions.reviews().stream().filter(review -> !review.run().equals(own)).toList();
  }

  /** How many rules, over all traces, have the verdict. */
  public long count(Verdict verdict) {
    long count = 0;
    for (TraceResult trace : traces) {
      count += trace.count(verdict);
    }
    return count;
  }

  /** How many traces could not be judged at all. */
  public long unjudged() {
    return traces.stream().filter(trace -> trace.rules().isEmpty()).count();
  }

  /** Whether at least one trace could not be read to its end. */
  public boolean hasFailure() {
    for (TraceResult trace : traces) {
      if (!trace.reading().failure().isEmpty()) {
        return true;
      }
    }
    return false;
  }
}
