package dev.pawl.junit;

import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.LapsedDecision;
import dev.pawl.run.EventSource;
import dev.pawl.run.RunException;
import dev.pawl.run.Session;
import dev.pawl.run.SessionOptions;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.DecisionFiles;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.source.RideSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.TestTemplateInvocationContext;
import org.junit.jupiter.api.extension.TestTemplateInvocationContextProvider;
import org.junit.platform.commons.support.AnnotationSupport;

/** Makes the tests of a method that is annotated with {@link RuleTest}: judges once, and gives one for each verdict. */
final class RuleTests implements TestTemplateInvocationContextProvider {

  @Override
  public boolean supportsTestTemplate(ExtensionContext context) {
    return AnnotationSupport.isAnnotated(context.getTestMethod(), RuleTest.class);
  }

  @Override
  public Stream<TestTemplateInvocationContext> provideTestTemplateInvocationContexts(ExtensionContext context) {
    RuleTest asked = AnnotationSupport.findAnnotation(context.getTestMethod(), RuleTest.class).orElseThrow();
    Report report = judged(asked);
    List<TestTemplateInvocationContext> tests = new ArrayList<>();
    for (TraceResult trace : report.traces()) {
      if (!trace.reading().failure().isEmpty()) {
        tests.add(Outcome.failed("the trace can be read: " + trace.path(), trace.path() + ": "
            + trace.reading().failure()));
      }
      trace.rules().forEach(rule -> tests.add(Outcome.of(report, trace, rule, asked)));
    }
    LapsedDecision.of(report).forEach(decision -> tests.add(Outcome.failed(decision.subject(), decision.file() + ":"
        + decision.line() + ": " + decision.words())));
    return tests.stream();
  }

  private static Report judged(RuleTest asked) {
    RuleFiles rules = RuleFiles.load(List.of(asked.rules()), List.of(asked.useFrom()), Optional.empty());
    SessionOptions options = SessionOptions.DEFAULT;
    DecisionFiles decisions = DecisionFiles.load(List.of(asked.decisions()));
    Session session = Session.by(rules)
        .withOptions(new SessionOptions(options.jobs(), options.findings(), false, decisions.hasReviews()));
    if (!asked.bindings().isEmpty()) {
      session = session.withBindings(BindingsFiles.load(asked.bindings(), rules.book()));
    }
    LogicSettings settings = LogicSettings.DEFAULT.and(session.bindings().bindings().variables());
    if (asked.logic().length > 0) {
      session = session.withController(LogicController.of(rules, LogicFiles.load(List.of(asked.logic())), settings));
    }
    Report report = session.judge(sources(asked, session, rules, settings.scans().period()));
    return asked.decisions().length == 0 ? report : decisions.decided(report, LocalDate.now(ZoneOffset.UTC));
  }

  private static List<EventSource> sources(RuleTest asked, Session session, RuleFiles rules, long scan) {
    if (asked.ride().isEmpty()) {
      if (asked.traces().length == 0) {
        throw new RunException("no trace: name at least one with 'traces'");
      }
      return session.traces(List.of(asked.traces()));
    }
    if (asked.logic().length == 0) {
      throw new RunException("a ride moves as logic commands: name its files with 'logic'");
    }
    RideFiles ride = RideFiles.load(asked.ride(), rules);
    List<String> scenarios = asked.traces().length == 0 ? ride.scenarios() : List.of(asked.traces());
    return scenarios.stream().<EventSource>map(name -> new RideSource(ride, name, scan)).toList();
  }
}
