package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.grammar.source.NearName;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import java.util.stream.Stream;

/** All commands: their names, how each is used in short, and what does it. */
public enum Commands {
  CHECK(CheckCommand::new, """
      check --rules PATH... TRACE...    check recorded traces
      """),
  REPLAY(ReplayCommand::new, """
      replay --rules PATH... --logic FILE TRACE...
                                        logic, written or drawn, driven by a trace's inputs or by a simulated ride
      replay --rules PATH... --broker URL --keep FILE TRACE
                                        the same with the logic on a bench behind MQTT
      """),
  STRESS(StressCommand::new, """
      stress --rules PATH... --logic FILE --ride FILE SCENARIO
                                        many runs with faults put into them: what do the rules not notice?
      """),
  FLEET(FleetCommand::new, """
      fleet archive MANIFEST --out DIR  many sessions, judged by many workers
      fleet campaign ... --out DIR      the runs of 'stress', made by them
      """),
  SERVE(ServeCommand::new, """
      serve --rules PATH... --logic FILE --broker URL
                                        be that bench: logic that answers over MQTT
      """),
  WATCH(() -> new LiveCommand(true), """
      watch --rules PATH... --broker URL
                                        check a live feed
      """),
  RECORD(() -> new LiveCommand(false), """
      record --rules PATH... --broker URL --keep FILE
                                        keep a live feed as a trace
      """),
  BEGIN(BeginCommand::new, """
      begin LAYOUT FOLDER               begin a ride: its files out of a description of its layout
      """),
  PROPOSE(ProposeCommand::new, """
      propose --rules PATH... LOG       what the bindings of a log might be, for a person to confirm
      """),
  EXPLAIN(ExplainCommand::new, """
      explain --rules PATH... [TRACE]   say rules in plain words and as formulas
      """),
  EXAMPLES(ExamplesCommand::new, """
      examples --rules PATH...          do the rules give what the examples in their files say?
      """),
  FORMAT(FormatCommand::new, """
      format PATH...                    canonical layout of rule files
      """),
  EDITOR(EditorCommand::new, """
      editor                            answer an editor of rule files: a language server
      """),
  COMPARE(CompareCommand::new, """
      compare BEFORE.json AFTER.json    what a logic change did to every rule and margin; with
                                        --logic BEFORE.st --logic AFTER.st to every output edge too
      """),
  VERIFY(VerifyCommand::new, """
      verify REPORT                     is a report, and all that it rests on, as it was written?
      """),
  DEMO(DemoCommand::new, """
      demo                              the main job on the demo ride, with a report to open
      """),
  SUPPORT(SupportCommand::new, """
      support FILE.zip                  what somebody needs to know who is asked for help
      """),
  COMPLETION(CompletionCommand::new, """
      completion bash|zsh               what lets a shell complete commands and options
      """);

  private final Supplier<Command> made;
  private final String use;

  Commands(Supplier<Command> made, String use) {
    this.made = made;
    this.use = use;
  }

  /** The word by which it is called. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** How it is used in short, and what for. */
  public String use() {
    return use;
  }

  Command make() {
    return made.get();
  }

  /** The command that is called by this word. */
  public static Commands of(String word) {
    List<String> known = Stream.of(values()).map(Commands::word).toList();
    if (known.contains(word)) {
      return values()[known.indexOf(word)];
    }
    String hint = NearName.of(word, known).map(nearest -> "; did you mean '" + nearest + "'?").orElse("");
    throw new CommandException((word.startsWith("-") ? "unknown option '" : "unknown command '") + word + "'" + hint
        + " ('pawl --help' lists the commands)");
  }
}
