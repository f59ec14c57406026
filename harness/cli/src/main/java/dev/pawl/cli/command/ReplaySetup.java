package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.option.ReplayOptions;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.NearName;
import dev.pawl.run.EventSource;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.source.RideSource;
import dev.pawl.trace.bindings.Bindings;
import java.util.List;

/**
 * Logic under test and what drives it, as options state them.
 *
 * @param files the logic
 */
public record ReplaySetup(ReplayOptions options, LogicFiles files, Console console) {

  /** Reads the logic; what is doubtful in it goes to the console. */
  static ReplaySetup of(ReplayOptions options, Console console) {
    LogicFiles files = LogicFiles.load(options.logic(), options.settings().choices());
    console.err().print(files.warnings());
    return new ReplaySetup(options, files, console);
  }

  /** The logic as a controller; what is doubtful in its binding goes to the console. */
  LogicController controller(RuleFiles rules, Bindings bindings) {
    List<String> names = rules.book().signals().stream().map(Signal::name).toList();
    options.settings().variables().keySet().forEach(name -> requireKnown("--variable", name, names));
    options.settings().recorded().forEach(name -> requireKnown("--as-recorded", name, names));
    LogicController controller = LogicController.of(rules, files, options.settings().and(bindings.variables()));
    console.err().print(files.rendered(rules, controller.binding()));
    return controller.withRecording(options.keep().map(file -> file));
  }

  private static void requireKnown(String option, String name, List<String> names) {
    if (!names.contains(name)) {
      throw new CommandException(option + ": the rules declare no signal '" + name + "'"
          + NearName.hint(name, names).map(hint -> "; " + hint).orElse(""));
    }
  }

  /** What drives the logic: the traces of a job, or scenarios of the ride by their names. */
  List<EventSource> sources(CheckJob job, List<String> scenarios) {
    List<EventSource> sources = options.ride().isPresent()
        ? scenarios(ride(options.ride().get(), job.rules(), scenarios, console), scenarios,
            options.settings().scans().shortest(files.program().tasks()))
        : job.traces();
    if (options.keep().isPresent() && sources.size() > 1) {
      throw new CommandException("--keep: what is judged of " + sources.size()
          + " runs does not go into one file; name one");
    }
    return sources;
  }

  /** A ride; inputs that nothing ever sets are named to the console. */
  static RideFiles ride(String path, RuleFiles rules, List<String> scenarios, Console console) {
    RideFiles ride = RideFiles.load(path, rules);
    List<String> untouched = ride.untouched(scenarios);
    if (!untouched.isEmpty()) {
      console.err().println("pawl: nothing ever sets " + String.join(", ", untouched) + ": no flag, sensor or desk of "
          + ride.file() + " names " + (untouched.size() == 1 ? "it" : "them") + ", and no scenario");
    }
    return ride;
  }

  /** Scenarios of a ride by their names, or all of them. */
  static List<EventSource> scenarios(RideFiles ride, List<String> named, long scan) {
    List<String> names = named.isEmpty() ? ride.scenarios() : named;
    if (names.isEmpty()) {
      throw new CommandException("--ride: no scenario lies in the folder 'scenarios' beside " + ride.file()
          + "; write one, such as scenarios/first.scenario with the line 'lasts 300 s'");
    }
    return names.stream().<EventSource>map(name -> new RideSource(ride, name, scan)).toList();
  }
}
