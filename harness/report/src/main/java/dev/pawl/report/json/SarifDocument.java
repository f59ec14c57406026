package dev.pawl.report.json;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.DecisionWords;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.LapsedDecision;
import dev.pawl.report.words.TimeText;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * report.sarif: each record is an object in it, and each component a property, by the names of SARIF 2.1.0. What broke
 * fails; what is undecided is open and what was not exercised does not apply, or both fail where proof is required.
 * What is held is not among the results.
 */
record SarifDocument(String $schema, String version, List<Run> runs) {

  private static final String SCHEMA =
      "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";
  private static final String DECISION = "decision";

  static SarifDocument of(Report report) {
    List<RuleOverview> rules = RuleOverview.of(report);
    List<Descriptor> descriptors = new ArrayList<>(rules.stream().map(Descriptor::of).toList());
    descriptors.add(new Descriptor(DECISION, new Message("An acceptance is in force and about something that"
        + " broke, and a review is of this report"),
        Optional.empty(), Optional.empty(), new Configuration("error")));
    Driver driver = new Driver("pawl", report.version(), new Message(String.join(" ", Cautions.of(report))),
        descriptors);
    return new SarifDocument(SCHEMA, "2.1.0", List.of(new Run(new Tool(driver), List.of(Invocation.of(report)),
        "unicodeCodePoints", results(report))));
  }

  private static Stream<Result> results(Report report) {
    Stream<Result> judged = report.traces().stream().flatMap(trace -> IntStream.range(0, trace.rules().size()).boxed()
        .flatMap(index -> results(report, trace, index)));
    return Stream.concat(judged, LapsedDecision.of(report).stream().map(SarifDocument::lapsed));
  }

  private static Stream<Result> results(Report report, TraceResult trace, int index) {
    RuleResult rule = trace.rules().get(index);
    String id = rule.rule().id();
    List<Suppression> suppressions = report.decisions().accepting(trace, rule).stream().map(Suppression::of).toList();
    Optional<List<Suppression>> suppressed = suppressions.isEmpty() ? Optional.empty() : Optional.of(suppressions);
    String where = trace.path() + ": ";
    String unproven = report.proofRequired() ? "fail" : rule.verdict() == Verdict.UNDECIDED ? "open" : "notApplicable";
    String level = report.proofRequired() ? "warning" : "none";
    Location ofRule = Location.of(rule.rule().position().file(), rule.rule().position().line(), Optional.empty());
    return switch (rule.verdict()) {
      case HELD -> Stream.empty();
      case BROKEN -> rule.broken().isEmpty() ? Stream.of(new Result(id, OptionalLong.of(index), "fail", level(rule),
          new Message(where + FindingWords.obligations(rule.obligations())), List.of(ofRule), Optional.empty(),
          suppressed)) : rule.broken().stream().map(finding -> new Result(id, OptionalLong.of(index), "fail",
              level(rule), new Message(where + trigger(rule, trace, finding)
                  + FindingWords.sentence(rule.rule(), finding, trace.timeBase())),
              List.of(program(finding).orElse(ofRule)), Optional.of(related(rule, trace, finding, ofRule)),
              suppressed));
      case UNDECIDED -> Stream.of(new Result(id, OptionalLong.of(index), unproven, level, new Message(where
          + "undecided: " + FindingWords.undecidedReason(rule)), List.of(ofRule), Optional.empty(), suppressed));
      case NOT_EXERCISED -> Stream.of(new Result(id, OptionalLong.of(index), unproven, level, new Message(where
          + "not exercised: " + reason(rule)), List.of(ofRule), Optional.empty(), suppressed));
    };
  }

  private static String trigger(RuleResult rule, TraceResult trace, FindingResult finding) {
    return FindingWords.hasTrigger(rule.rule()) ? "triggered at " + TimeText.at(trace.timeBase(), finding.trigger())
        + ": " : "";
  }

  private static String reason(RuleResult rule) {
    String reason = FindingWords.notExercisedReason(rule);
    return reason.isEmpty() ? "no obligation arose" : reason;
  }

  private static Result lapsed(LapsedDecision decision) {
    return new Result(DECISION, OptionalLong.empty(), "fail", "error", new Message(decision.subject() + ": "
        + decision.words()), List.of(Location.of(decision.file(), decision.line(), Optional.empty())), Optional.empty(),
        Optional.empty());
  }

  private static String level(RuleResult rule) {
    return switch (rule.rule().severity()) {
      case CRITICAL, MAJOR -> "error";
      case MINOR -> "warning";
    };
  }

  /** The line of the program that broke it, where a program did. */
  private static Optional<Location> program(FindingResult finding) {
    return Stream.of(Evidence.Moment.BREAK, Evidence.Moment.TRIGGER).flatMap(moment -> finding.evidence().stream()
        .filter(event -> event.moment() == moment)).flatMap(event -> event.writtenBy().stream()).findFirst()
        .map(place -> Location.of(place.file(), place.line(), Optional.empty()));
  }

  private static List<Location> related(RuleResult rule, TraceResult trace, FindingResult finding, Location ofRule) {
    List<Location> related = new ArrayList<>();
    if (program(finding).isPresent()) {
      related.add(ofRule.saying(rule.rule().id() + " " + rule.rule().title()));
    }
    for (EvidenceResult event : finding.evidence()) {
      String words = FindingWords.became(event, trace) + (event.wasLogged() ? " at "
          + TimeText.at(trace.timeBase(), event.time()) : "");
      related.add(event.writtenBy().map(place -> Location.of(place.file(), place.line(), Optional.of(words)))
          .orElseGet(() -> event.line() > 0 ? Location.of(event.file(), event.line(), Optional.of(words))
              : new Location(Optional.empty(), Optional.of(new Message(words)))));
    }
    return related;
  }

  record Run(Tool tool, List<Invocation> invocations, String columnKind, Stream<Result> results) {}

  record Tool(Driver driver) {}

  record Driver(String name, String version, Message fullDescription, List<Descriptor> rules) {}

  record Descriptor(String id, Message shortDescription, Optional<Message> fullDescription, Optional<Message> help,
      Configuration defaultConfiguration) {

    static Descriptor of(RuleOverview rule) {
      Rule.Basis stated = rule.rule().basis();
      String basis = stated.isPractice() ? "common practice, no published source" : stated.text();
      return new Descriptor(rule.rule().id(), new Message(rule.rule().title()),
          Optional.of(new Message(rule.rule().text())), Optional.of(new Message("Basis: " + basis + ". Severity: "
              + rule.rule().severity().name().toLowerCase(Locale.ROOT) + ".")),
          new Configuration(rule.results().isEmpty() ? "error" : SarifDocument.level(rule.results().get(0).result())));
    }
  }

  record Configuration(String level) {}

  record Message(String text) {}

  /** Whether all of it was judged; what was not is told in notifications. */
  record Invocation(boolean executionSuccessful, List<Notification> toolExecutionNotifications) {

    static Invocation of(Report report) {
      List<Notification> told = new ArrayList<>();
      if (report.partial()) {
        told.add(new Notification("error", new Message("partial: the run was interrupted")));
      }
      report.traces().stream().filter(trace -> !trace.reading().failure().isEmpty()).forEach(trace ->
          told.add(new Notification("error", new Message(trace.path() + ": " + trace.reading().failure()))));
      return new Invocation(told.isEmpty(), told);
    }
  }

  record Notification(String level, Message message) {}

  record Result(String ruleId, OptionalLong ruleIndex, String kind, String level, Message message,
      List<Location> locations, Optional<List<Location>> relatedLocations, Optional<List<Suppression>> suppressions) {}

  record Suppression(String kind, String status, String justification, Location location) {

    static Suppression of(Acceptance acceptance) {
      return new Suppression("external", "accepted", DecisionWords.accepted(List.of(acceptance)) + ": "
          + acceptance.reason(), Location.of(acceptance.file(), acceptance.line(), Optional.empty()));
    }
  }

  /** A place in a file, or without one what was so in a ride in motion, which is no file. */
  record Location(Optional<Physical> physicalLocation, Optional<Message> message) {

    static Location of(String file, long line, Optional<String> words) {
      return new Location(Optional.of(new Physical(new Artifact(uri(file)), line > 0 ? Optional.of(new Region(line))
          : Optional.empty())), words.map(Message::new));
    }

    Location saying(String words) {
      return new Location(physicalLocation, Optional.of(new Message(words)));
    }
  }

  record Physical(Artifact artifactLocation, Optional<Region> region) {}

  record Artifact(String uri) {}

  record Region(long startLine) {}

  /** A path as a reference that a program resolves: relative as it was given, or of a file. */
  private static String uri(String path) {
    String plain = path.replace('\\', '/');
    boolean whole = plain.startsWith("/") || plain.matches("[A-Za-z]:/.*");
    try {
      String name = plain.startsWith("/") || !whole ? plain : "/" + plain;
      String reference = new URI(whole ? "file" : null, whole ? "" : null, whole ? name : "./" + name, null)
          .toASCIIString();
      return whole ? reference : reference.substring(name.split("/", 2)[0].contains(":") ? 0 : 2);
    } catch (URISyntaxException e) {
      throw new IllegalStateException("every path can be escaped", e);
    }
  }
}
