package dev.pawl.cli.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.RunJournal;
import dev.pawl.cli.keep.StressFolder;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.ProgramOptions;
import dev.pawl.cli.option.StressOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.cli.output.StressProgress;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.scenario.ScenarioText;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.StrengthReport;
import dev.pawl.report.model.StressReport;
import dev.pawl.report.text.StrengthText;
import dev.pawl.report.text.StressText;
import dev.pawl.run.Version;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.Digests;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.stress.Campaign;
import dev.pawl.run.stress.MistakeResult;
import dev.pawl.run.stress.RunLog;
import dev.pawl.run.stress.RunResult;
import dev.pawl.run.stress.Strength;
import dev.pawl.run.stress.StressFindings;
import dev.pawl.run.stress.Subject;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import picocli.CommandLine.ParseResult;

/** {@code pawl stress}: many runs of a ride and its logic with faults put into them. */
public final class StressCommand implements Command {

  /** Seconds; a scenario that lasts longer shows too little for its time. */
  private static final double LONGEST = 1200;

  @Override
  public Syntax syntax() {
    return Syntax.of(StressOptions.ALL, Operands.any("SCENARIO", "What happens without a fault, mostly a day on which"
        + " trains are sent as soon as they are ready; one from the folder 'scenarios' beside the ride, or a file."),
        "Runs a scenario of a ride again and again with faults put into it: flags that stick, miss, bounce or are late,"
            + " wires that are swapped, equipment that fails, power cuts, hands at the wrong button. First each fault"
            + " alone at instants all over the run, then pairs, then several at random, then a search for what no run"
            + " has shown yet. What is drawn depends on --seed alone.",
        "Each run is judged by all rules, and by what truly happened to the trains. Said first are hazards that no rule"
            + " noticed. Each hazard is made as small as it gets.",
        "With --mistakes the faults are in the logic: one mistake after another is planted in its text, and what comes"
            + " of it is compared with what the unchanged logic does in the same runs.",
        "Exit status: 0 every hazard was noticed by a rule, 1 one was not, 2 wrong input or command.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    StressOptions options = StressOptions.of(words);
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
    Setup setup = new Setup(options, settings, rules, ride, base, logic, controller, subject);
    return options.mistakes() > 0 ? mistakes(setup, ProgramOptions.SEED.of(words), console) : faults(setup,
        ProgramOptions.SEED.of(words), console);
  }

  /** All that the options name, read. */
  private record Setup(StressOptions options, LogicSettings settings, RuleFiles rules, RideFiles ride,
      RideFiles.ReadScenario base, LogicFiles logic, LogicController controller, Subject subject) {

    String texts(List<Scenario> scenarios) {
      return scenarios.stream().map(it -> ScenarioText.of(it, ride.ride(), rules.book())).collect(Collectors.joining());
    }

    /** The journal, where there is a folder for it. */
    <T> Optional<RunJournal<T>> journal(String how, Function<T, String> written, Function<String, Optional<T>> read) {
      List<Input> files = new ArrayList<>(rules.inputs());
      files.addAll(logic.inputs());
      files.add(Digests.of(Input.Role.RIDE, ride.file().toString()));
      base.files().forEach(file -> files.add(Digests.of(Input.Role.RIDE, file.toString())));
      String fingerprint = Digests.sha256(CheckJob.build() + Version.TEXT + " " + how + " " + settings + " " + files);
      return options.folder().map(folder -> RunJournal.open(Path.of(folder), fingerprint, written, read));
    }
  }

  private static int faults(Setup setup, long seed, Console console) {
    StressOptions options = setup.options();
    int rules = setup.rules().book().rules().size();
    Campaign campaign = new Campaign(setup.subject(), setup.base().scenario(), options.runs(), seed,
        options.findings());
    Optional<RunJournal<RunResult>> journal = setup.journal("faults " + options.runs() + " " + seed, RunResult::line,
        line -> RunResult.of(line, rules));
    try {
      StressReport report = run(campaign, options, console, journal, setup.ride(), setup.controller());
      console.out().print(StressText.of(report, console.style()));
      return report.hasUnnoticed() ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
    } finally {
      journal.ifPresent(RunJournal::close);
    }
  }

  private static int mistakes(Setup setup, long seed, Console console) {
    StressOptions options = setup.options();
    int rules = setup.rules().book().rules().size();
    List<Scenario> scenarios = new ArrayList<>();
    for (String name : setup.ride().scenarios()) {
      Scenario scenario = setup.ride().scenario(name).scenario();
      if (scenario.lasts() <= LONGEST && !name.equals(setup.base().scenario().name())) {
        scenarios.add(scenario);
      }
    }
    scenarios.add(setup.base().scenario());
    Strength strength = new Strength(setup.subject(), setup.logic().sources(), setup.settings(), scenarios, setup.base()
        .scenario(), options.runs(), options.mistakes(), seed);
    Optional<RunJournal<MistakeResult>> journal = setup.journal("mistakes " + options.mistakes() + " " + options.runs()
        + " " + seed + " " + setup.texts(scenarios), MistakeResult::line, line -> MistakeResult.of(line, rules));
    StressProgress progress = new StressProgress(console, options.quiet(), options.mistakes());
    try {
      Strength.Outcome outcome = strength.run(options.jobs(), journal.<RunLog<MistakeResult>>map(it -> it).orElse(
          RunLog.none()), progress);
      progress.wipe();
      StrengthReport report = StressFindings.of(strength, outcome);
      options.folder().ifPresent(folder -> new StressFolder(Path.of(folder)).write(report));
      console.out().print(StrengthText.of(report, console.style()));
      return report.of(StrengthReport.Fate.DANGEROUS).isEmpty() ? ExitStatus.NOTHING_BROKEN : ExitStatus.RULE_BROKEN;
    } finally {
      journal.ifPresent(RunJournal::close);
    }
  }

  private static StressReport run(Campaign campaign, StressOptions options, Console console,
      Optional<RunJournal<RunResult>> journal, RideFiles ride, LogicController controller) {
    StressProgress progress = new StressProgress(console, options.quiet(), options.runs());
    Campaign.Outcome outcome = campaign.run(options.jobs(),
        journal.<RunLog<RunResult>>map(it -> it).orElse(RunLog.none()),
        progress);
    long taken = journal.map(RunJournal::taken).orElse(0);
    if (!options.quiet()) {
      long made = outcome.tally().all().runs();
      progress.end(made - taken, outcome.tally().scans() * (controller.shortest() / 1e9) * (made - taken) / made);
      if (taken > 0) {
        console.err().println("pawl: " + taken + " runs were made before; what they came to was taken over");
      }
    }
    if (options.folder().isEmpty()) {
      return StressFindings.of(campaign, outcome, number -> "", rule -> "");
    }
    StressFolder folder = new StressFolder(Path.of(options.folder().get()));
    StressReport report = StressFindings.of(campaign, outcome, StressFolder::name, StressFolder::name);
    folder.write(report, outcome, ride, controller);
    return report;
  }
}
