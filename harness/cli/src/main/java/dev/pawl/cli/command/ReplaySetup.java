package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.option.ReplayOptions;
import dev.pawl.demo.RideLoop;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.NearName;
import dev.pawl.run.EventSource;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Logic under test and what drives it, as options state them.
 *
 * @param files the logic
 */
public record ReplaySetup(ReplayOptions options, LogicFiles files, Console console) {

  /** Reads the logic; what is doubtful in it goes to the console. */
  static ReplaySetup of(ReplayOptions options, Console console) {
    LogicFiles files = LogicFiles.load(options.logic());
    console.err().print(files.warnings());
    return new ReplaySetup(options, files, console);
  }

  /** The logic as a controller; what is doubtful in its binding goes to the console. */
  LogicController controller(RuleFiles rules) {
    List<String> names = rules.book().signals().stream().map(Signal::name).toList();
    options.settings().variables().keySet().forEach(name -> requireKnown("--variable", name, names));
    options.settings().recorded().forEach(name -> requireKnown("--as-recorded", name, names));
    LogicController controller = LogicController.of(rules, files, options.settings());
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
        ? scenarios(Path.of(options.ride().get()), scenarios, job.rules().book()) : job.traces();
    if (options.keep().isPresent() && sources.size() > 1) {
      throw new CommandException("--keep: what is judged of " + sources.size()
          + " runs does not go into one file; name one");
    }
    return sources;
  }

  private static List<EventSource> scenarios(Path ride, List<String> names, RuleBook book) {
    if (!Files.isDirectory(ride)) {
      throw new CommandException("--ride: " + ride + ": no such folder");
    }
    List<String> missing = RideLoop.missing(book);
    if (!missing.isEmpty()) {
      throw new CommandException("--ride: the rules lack signals of the ride, or have them with another type: "
          + String.join(", ", missing));
    }
    List<String> known = RideLoop.scenarios();
    List<EventSource> sources = new ArrayList<>();
    for (String name : names.isEmpty() ? known : names) {
      if (!known.contains(name)) {
        throw new CommandException("no scenario '" + name + "';" + NearName.hint(name, known).map(" "::concat)
            .orElse("") + " there are " + String.join(", ", known));
      }
      sources.add(new RideSource(ride, name, book));
    }
    return sources;
  }
}
