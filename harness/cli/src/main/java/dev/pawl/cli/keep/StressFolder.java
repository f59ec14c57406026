package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.scenario.ScenarioText;
import dev.pawl.report.html.StressPage;
import dev.pawl.report.model.StrengthReport;
import dev.pawl.report.model.StressReport;
import dev.pawl.report.text.StrengthText;
import dev.pawl.report.text.StressMatrix;
import dev.pawl.report.text.StressText;
import dev.pawl.report.text.Style;
import dev.pawl.run.Session;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.source.RideSource;
import dev.pawl.run.stress.Campaign;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The folder of a campaign: its report, and for each hazard and each broken rule the smallest scenario and what was
 * judged of it.
 *
 * @param place where it is; the journal of the campaign has claimed it
 */
public record StressFolder(Path place) {

  private static final String FINDINGS = "findings";
  private static final String BROKEN = "broken";

  /** What the files of a finding are called, without their ending. */
  public static String name(int finding) {
    return FINDINGS + "/" + String.format(Locale.ROOT, "%02d", finding + 1);
  }

  /** What the files of the smallest run that breaks a rule are called, without their ending. */
  public static String name(String rule) {
    return BROKEN + "/" + rule;
  }

  /** Writes all; the report comes last. */
  public void write(StressReport report, Campaign.Outcome outcome, RideFiles ride, LogicController controller) {
    try {
      Files.createDirectories(place.resolve(FINDINGS));
      Files.createDirectories(place.resolve(BROKEN));
      for (int i = 0; i < outcome.found().size(); i++) {
        keep(name(i), outcome.found().get(i).scenario(), ride, controller);
      }
      removeOlder(outcome.found().size());
      for (Campaign.Broken it : outcome.broken()) {
        keep(name(ride.rules().book().rules().get(it.rule()).id()), it.scenario(), ride, controller);
      }
      StringWriter page = new StringWriter();
      StressPage.write(report, page);
      whole(place.resolve("stress.html"), page.toString());
      whole(place.resolve("matrix.csv"), StressMatrix.of(report));
      whole(place.resolve("stress.txt"), StressText.of(report, Style.PLAIN));
    } catch (IOException e) {
      throw new CommandException("the report cannot be written: " + FileTrouble.message(place.toString(), e));
    }
  }

  private void keep(String name, Scenario small, RideFiles ride, LogicController controller) throws IOException {
    Path scenario = place.resolve(name + RideFiles.SCENARIO);
    whole(scenario, ScenarioText.of(small, ride.ride(), ride.rules().book()));
    KeptTrace trace = KeptTrace.of(place.resolve(name + ".csv").toString(), true);
    Session.by(ride.rules()).withController(controller.withRecording(Optional.of(trace))).judge(List.of(
        new RideSource(ride, scenario.toString(), controller.shortest())));
  }

  /** Writes the report of mistakes. */
  public void write(StrengthReport report) {
    try {
      whole(place.resolve("mistakes.csv"), StrengthText.table(report));
      whole(place.resolve("mistakes.txt"), StrengthText.of(report, Style.PLAIN));
    } catch (IOException e) {
      throw new CommandException("the report cannot be written: " + FileTrouble.message(place.toString(), e));
    }
  }

  /** What an earlier end of the same campaign had found more of. */
  private void removeOlder(int count) throws IOException {
    for (int i = count; Files.exists(place.resolve(name(i) + RideFiles.SCENARIO)); i++) {
      Files.deleteIfExists(place.resolve(name(i) + RideFiles.SCENARIO));
      Files.deleteIfExists(place.resolve(name(i) + ".csv"));
    }
  }

  private static void whole(Path file, String text) throws IOException {
    Path beside = file.resolveSibling(file.getFileName() + ".unfinished");
    Files.writeString(beside, text);
    Durable.file(beside);
    Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
  }
}
