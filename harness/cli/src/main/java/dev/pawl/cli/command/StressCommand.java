package dev.pawl.cli.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.RunJournal;
import dev.pawl.cli.keep.StressFolder;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.StressOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.cli.output.StressProgress;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.report.model.StrengthReport;
import dev.pawl.report.model.StressReport;
import dev.pawl.report.text.StrengthText;
import dev.pawl.report.text.StressText;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.stress.Campaign;
import dev.pawl.run.stress.MistakeResult;
import dev.pawl.run.stress.RunLog;
import dev.pawl.run.stress.RunResult;
import dev.pawl.run.stress.Strength;
import dev.pawl.run.stress.StressFindings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
    StressSetup setup = StressSetup.read(options, words, console);
    return options.mistakes() > 0 ? mistakes(setup, console) : faults(setup, console);
  }

  private static int faults(StressSetup setup, Console console) {
    StressOptions options = setup.options();
    int rules = setup.rules().book().rules().size();
    Campaign campaign = setup.campaign(options.findings());
    Optional<RunJournal<RunResult>> journal = setup.journal(setup.how(), RunResult::line,
        line -> RunResult.of(line, rules));
    try {
      StressReport report = run(campaign, options, console, journal, setup.ride(), setup.controller());
      console.out().print(StressText.of(report, console.style()));
      return report.hasUnnoticed() ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
    } finally {
      journal.ifPresent(RunJournal::close);
    }
  }

  private static int mistakes(StressSetup setup, Console console) {
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
        .scenario(), options.runs(), options.mistakes(), setup.seed());
    Optional<RunJournal<MistakeResult>> journal = setup.journal("mistakes " + options.mistakes() + " " + options.runs()
        + " " + setup.seed() + " " + setup.texts(scenarios), MistakeResult::line, line -> MistakeResult.of(line,
            rules));
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
