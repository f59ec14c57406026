package dev.pawl.run.files;

import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Source;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.Decisions;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.Review;
import dev.pawl.run.RunException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/**
 * Files of decisions: which findings persons accept, and what they have looked at.
 *
 * @param sources the files
 * @param acceptances in the order written
 * @param reviews in the order written
 */
public record DecisionFiles(List<Source> sources, List<Acceptance> acceptances, List<Review> reviews) {

  public static final DecisionFiles NONE = new DecisionFiles(List.of(), List.of(), List.of());

  /**
   * Reads files of decisions.
   *
   * @throws RunException with everything wrong with them, if there is an error
   */
  public static DecisionFiles load(List<String> files) {
    List<Source> sources = files.stream().map(file -> RuleFiles.read(Path.of(file))).toList();
    Diagnostics diagnostics = new Diagnostics();
    DecisionReader reader = new DecisionReader(diagnostics);
    sources.forEach(reader::read);
    if (diagnostics.hasErrors()) {
      throw new RunException(new DiagnosticRenderer(sources).render(diagnostics.inOrder(files)),
          "the decisions have errors, nothing was judged");
    }
    return new DecisionFiles(sources, reader.acceptances(), reader.reviews());
  }

  /** Whether somebody has looked at a report. */
  public boolean hasReviews() {
    return !reviews.isEmpty();
  }

  /** A report with these decisions, as they stand on a day, among what it rests on. */
  public Report decided(Report report, LocalDate day) {
    List<Input> inputs = new ArrayList<>(report.inputs());
    if (!inputs.isEmpty()) {
      sources.forEach(source -> inputs.add(Digests.of(Input.Role.DECISIONS, source)));
    }
    return report.decided(new Decisions(day, acceptances, reviews), inputs);
  }
}
