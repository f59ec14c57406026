package dev.pawl.cli.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.keep.RunJournal;
import dev.pawl.cli.option.ProgramOptions;
import dev.pawl.cli.option.StressOptions;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.scenario.ScenarioText;
import dev.pawl.report.model.Input;
import dev.pawl.run.Version;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.Digests;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.stress.Campaign;
import dev.pawl.run.stress.Subject;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import picocli.CommandLine.ParseResult;

/** All that the options of a campaign name, read. */
public record StressSetup(StressOptions options, long seed, LogicSettings settings, RuleFiles rules, RideFiles ride,
    RideFiles.ReadScenario base, LogicFiles logic, LogicController controller, Subject subject) {

  static StressSetup read(StressOptions options, ParseResult words, Console console) {
    LogicSettings settings = ProgramOptions.settings(words);
    RuleFiles rules = options.rules().load(console);
    RideFiles ride = ReplaySetup.ride(options.ride(), rules, List.of(options.scenario()), console);
    RideFiles.ReadScenario base = ride.scenario(options.scenario());
    LogicFiles logic = LogicFiles.load(options.logic(), settings.choices());
    console.err().print(logic.warnings());
    LogicController controller = LogicController.of(rules, logic, settings);
    console.err().print(logic.rendered(rules, controller.binding()));
    Subject subject = new Subject(ride.ride(), rules.book(), controller.program(), controller.binding(), controller
        .scans());
    return new StressSetup(options, ProgramOptions.SEED.of(words), settings, rules, ride, base, logic, controller,
        subject);
  }

  /** The campaign with faults in its runs. */
  public Campaign campaign(int findings) {
    return new Campaign(subject, base.scenario(), options.runs(), seed, findings);
  }

  /** What its runs depend on beside its files. */
  public String how() {
    return "faults " + options.runs() + " " + seed;
  }

  /** Tells it from any other, by all that its runs depend on but the build of pawl. */
  public String fingerprint(String how) {
    List<Input> files = new ArrayList<>(rules.inputs());
    files.addAll(logic.inputs());
    files.add(Digests.of(Input.Role.RIDE, ride.file().toString()));
    base.files().forEach(file -> files.add(Digests.of(Input.Role.RIDE, file.toString())));
    return Version.TEXT + " " + how + " " + settings + " " + files;
  }

  String texts(List<Scenario> scenarios) {
    return scenarios.stream().map(it -> ScenarioText.of(it, ride.ride(), rules.book())).collect(Collectors.joining());
  }

  /** The journal, where there is a folder for it. */
  <T> Optional<RunJournal<T>> journal(String how, Function<T, String> written, Function<String, Optional<T>> read) {
    String run = Digests.sha256(CheckJob.build() + fingerprint(how));
    return options.folder().map(folder -> RunJournal.open(Path.of(folder), run, written, read));
  }
}
