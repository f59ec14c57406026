package dev.pawl.cli;

import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.SignalBinding;
import dev.pawl.logic.code.ProgramCompiler;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.ProgramPlace;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The logic under test: the files of one program, compiled.
 *
 * @param sources its files
 * @param program what they hold
 */
record LogicFiles(List<Source> sources, CheckedProgram program) {

  static final String ENDING = ".st";

  /**
   * Reads and checks the files of one program.
   *
   * @throws CommandException with every diagnostic on the console, if there is an error in any of them
   */
  static LogicFiles load(List<String> paths, Console console) {
    List<Source> sources = new ArrayList<>();
    for (Path file : Folders.files(paths, "Structured Text (*" + ENDING + ")", name -> name.endsWith(ENDING))) {
      sources.add(RuleFiles.read(file));
    }
    LogicLanguage.Compilation compilation = LogicLanguage.compile(sources);
    console.err().print(new DiagnosticRenderer(sources).render(compilation.diagnostics()));
    if (compilation.program().isEmpty()) {
      throw new CommandException("the logic has " + errors(compilation.diagnostics()) + ", nothing was judged");
    }
    if (compilation.program().get().programs().isEmpty()) {
      throw new CommandException(sources.get(0).name() + ": no PROGRAM in it, so there is nothing to run");
    }
    return new LogicFiles(sources, compilation.program().get());
  }

  /** Binds its variables to the signals of rules; what does not fit goes to the console, all of it. */
  SignalBinding bind(RuleFiles rules, ReplayOptions options, Console console) {
    SignalBinding binding = SignalBinding.bind(program, rules.book(), options.variables(), options.recorded());
    List<Source> all = new ArrayList<>(rules.compilation().sources());
    all.addAll(sources);
    console.err().print(new DiagnosticRenderer(all).render(binding.diagnostics()));
    if (!binding.isSound()) {
      throw new CommandException("logic and rules do not fit together: " + errors(binding.diagnostics()) + ", nothing was judged."
          + " --variable SIGNAL=VARIABLE pairs other names, --as-recorded SIGNAL takes a signal from the trace");
    }
    return binding;
  }

  /** Compiles it to code that notes who wrote what the binding takes. */
  LogicProgram compile(SignalBinding binding, LogicOptions options) {
    try {
      return LogicProgram.compile(program, options, binding.recorded());
    } catch (ProgramCompiler.TooLarge e) {
      throw new CommandException(e.getMessage());
    }
  }

  /** The line with its text. */
  Optional<ProgramPlace> place(String file, int line) {
    return sources.stream().filter(source -> source.name().equals(file)).findFirst()
        .map(source -> new ProgramPlace(file, line, source.text().lines().skip(line - 1L).findFirst().orElse("").strip()));
  }

  /** The files as inputs of a report. */
  List<Input> inputs() {
    return sources.stream().map(source -> Digests.of(Input.Role.LOGIC, source.name())).toList();
  }

  private static String errors(List<Diagnostic> diagnostics) {
    long errors = diagnostics.stream().filter(Diagnostic::isError).count();
    return errors + (errors == 1 ? " error" : " errors");
  }
}
