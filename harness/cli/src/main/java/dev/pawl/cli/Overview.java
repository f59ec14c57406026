package dev.pawl.cli;

import dev.pawl.engine.Caution;
import java.util.stream.Collectors;

/** The first page of help. */
final class Overview {

  static final String TEXT = """
      pawl: rule by rule, what a recorded ride shows about its lift and block control logic

        pawl check --rules PATH... TRACE...    check recorded traces
        pawl replay --rules PATH... --logic FILE.st TRACE...
                                               the logic itself, driven by a trace's inputs or by a simulated ride
        pawl replay --rules PATH... --broker URL --keep FILE TRACE
                                               the same with the logic on a bench behind MQTT
        pawl serve --rules PATH... --logic FILE.st --broker URL
                                               be that bench: logic that answers over MQTT
        pawl watch --rules PATH... --broker URL
                                               check a live feed; 'pawl record' keeps one
        pawl explain --rules PATH... [TRACE]   say rules in plain words and as formulas
        pawl examples --rules PATH...          do the rules give what the examples in their files say?
        pawl format PATH...                    canonical layout of rule files
        pawl compare BEFORE.json AFTER.json    what a logic change did to every rule and margin; with
                                               --logic BEFORE.st --logic AFTER.st to every output edge too
        pawl demo                              the main job on the demo ride, with a report to open
        pawl --version                         the version
        pawl help COMMAND                      how a command is used

      Exit status: 0 nothing broken; 1 a rule broken; 2 the input or the command is wrong;
      3 nothing broken but something undecided or not exercised, with --require-proof only.

      """ + Caution.OF_PUBLISHING.stream().map(caution -> caution.text() + "\n").collect(Collectors.joining());

  private Overview() {}
}
