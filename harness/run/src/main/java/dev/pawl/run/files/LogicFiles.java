package dev.pawl.run.files;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.drawn.Legend;
import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.LogicError;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ProgramLine;
import dev.pawl.logic.SignalBinding;
import dev.pawl.logic.code.ProgramCompiler;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.run.RunException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The logic under test: the files of one program, compiled.
 *
 * @param sources its files
 * @param program what they hold
 * @param warnings what is doubtful in them, for their user to read
 * @param legends what is drawn where, of files that were drawn, by their names
 * @param choices how their texts were read
 */
public record LogicFiles(List<Source> sources, CheckedProgram program, String warnings, Map<String, Legend> legends,
    LanguageChoices choices) {

  private static final String WANTED = "Structured Text (*.st) and no project in the exchange format (*.xml); name"
      + " files that are called otherwise one by one";

  private static final Set<String> ENDINGS = Set.of("st", "xml");

  /** Whether a file of a folder is taken for logic, by its name. */
  public static boolean reads(String name) {
    return ENDINGS.contains(name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT));
  }

  /**
   * Reads and checks the files of one program.
   *
   * @throws RunException with every diagnostic, if there is an error in any of them
   */
  public static LogicFiles load(List<String> paths) {
    return load(paths, LanguageChoices.DEFAULT);
  }

  /** The same, with choices how their texts are read. */
  public static LogicFiles load(List<String> paths, LanguageChoices choices) {
    List<Source> sources = new ArrayList<>();
    List<Diagnostic> letters = new ArrayList<>();
    List<Source> others = new ArrayList<>();
    for (Path file : Folders.files(paths, WANTED, LogicFiles::reads)) {
      List<Diagnostic> own = new ArrayList<>();
      Source source = read(file, choices, own);
      boolean named = paths.stream().anyMatch(path -> Path.of(path).equals(file));
      if (named || !LogicLanguage.isOtherXml(source)) {
        sources.add(source);
        letters.addAll(own);
      } else {
        others.add(source);
      }
    }
    if (sources.isEmpty()) {
      throw new RunException(paths.get(0) + ": this folder holds no " + WANTED);
    }
    if (!others.isEmpty()) {
      letters.add(Diagnostic.warning(new Position(others.get(0).name(), 1, 1, 1), "left out, since it is no project in"
          + " an exchange format" + (others.size() == 1 ? "" : ", and so it is with " + others.stream().skip(1)
          .map(Source::name).collect(Collectors.joining(", "))), "name the files that are meant, instead of a folder"));
    }
    LogicLanguage.Compilation compilation = LogicLanguage.compile(sources, choices);
    letters.addAll(compilation.diagnostics());
    letters = new ArrayList<>(Allowance.joined(letters, compilation.legends().keySet()));
    List<Source> all = new ArrayList<>(sources);
    all.addAll(others);
    String diagnostics = new DiagnosticRenderer(all).render(letters);
    if (letters.stream().anyMatch(Diagnostic::isError) && compilation.program().isPresent()) {
      throw new RunException(diagnostics, "the logic has " + errors(letters) + ", nothing was judged");
    }
    if (compilation.program().isEmpty()) {
      throw new RunException(diagnostics,
          "the logic has " + errors(letters) + ", nothing was judged");
    }
    if (compilation.program().get().programs().isEmpty()) {
      throw new RunException(diagnostics, sources.get(0).name() + ": no PROGRAM in it, so there is nothing to run");
    }
    return new LogicFiles(sources, compilation.program().get(), diagnostics, compilation.legends(), choices);
  }

  /** The same with some of what is drawn to be seen; nothing where that cannot be. */
  public Optional<LogicFiles> showing(Shown shown) {
    return LogicLanguage.compile(sources, choices, shown).program().map(other -> new LogicFiles(sources, other,
        warnings, legends, choices));
  }

  private static Source read(Path file, LanguageChoices choices, List<Diagnostic> letters) {
    try {
      Texts.Decoded decoded = Texts.readInAnyLetters(file);
      Source source = new Source(file.toString(), decoded.text());
      if (decoded.doubtfulLine() > 0) {
        letters.add(Allowance.CODE_PAGES.found(choices, new Position(source.name(), decoded.doubtfulLine(), 1,
            Math.max(1, source.line(decoded.doubtfulLine()).length())),
            "the file is not in UTF-8, first in this line; its letters were taken for Windows-1252",
            "save it as UTF-8"));
      }
      return source;
    } catch (IOException e) {
      throw new RunException(FileTrouble.message(file.toString(), e));
    }
  }

  /**
   * Binds its variables to the signals of rules.
   *
   * @param variables paths of variables by names of signals, where those have other names
   * @param recorded signals that are taken from the trace
   * @throws RunException with all that does not fit
   */
  public SignalBinding bind(RuleFiles rules, Map<String, String> variables, Set<String> recorded) {
    SignalBinding binding = SignalBinding.bind(program, rules.book(), variables, recorded);
    if (!binding.isSound()) {
      throw new RunException(rendered(rules, binding),
          "logic and rules do not fit together: " + errors(binding.diagnostics()) + ", nothing was judged."
              + " --variable SIGNAL=VARIABLE pairs other names, --as-recorded SIGNAL takes a signal from the trace");
    }
    return binding;
  }

  /** What is doubtful in a binding, for its user to read. */
  public String rendered(RuleFiles rules, SignalBinding binding) {
    List<Source> all = new ArrayList<>(rules.compilation().sources());
    all.addAll(sources);
    return new DiagnosticRenderer(all).render(binding.diagnostics());
  }

  /** Compiles it to code that notes who wrote what the binding takes. */
  public LogicProgram compile(SignalBinding binding, LogicOptions options) {
    return compile(binding, options, List.of());
  }

  /** The same, with lines watched. */
  public LogicProgram compile(SignalBinding binding, LogicOptions options, List<ProgramLine> watched) {
    try {
      return LogicProgram.compile(program, options, binding.recorded(), watched);
    } catch (ProgramCompiler.TooLarge e) {
      throw new RunException(e.getMessage());
    }
  }

  /**
   * The line with its text, or with what is drawn there.
   *
   * @param variable the path of the one that was written there
   */
  public Optional<ProgramPlace> place(String file, int line, String variable) {
    Optional<String> drawn = Optional.ofNullable(legends.get(file)).flatMap(legend -> legend.at(line,
        variable.substring(variable.lastIndexOf('.') + 1)));
    if (drawn.isPresent()) {
      return Optional.of(new ProgramPlace(file, line, drawn.get()));
    }
    return sources.stream().filter(source -> source.name().equals(file)).findFirst()
        .map(source -> new ProgramPlace(file, line, source.text().lines().skip(line - 1L).findFirst().orElse("")
            .strip()));
  }

  /** A run-time error with its place, and with what is drawn there. */
  public String told(LogicError error) {
    Optional<String> drawn = Optional.ofNullable(legends.get(error.place().file()))
        .flatMap(legend -> legend.at(error.place().line()));
    return drawn.map(what -> error.place() + ": " + what + ": " + error.message() + " (scan " + error.scan() + ")")
        .orElseGet(error::toString);
  }

  /** The files as inputs of a report. */
  public List<Input> inputs() {
    return sources.stream().map(source -> Digests.of(Input.Role.LOGIC, source)).toList();
  }

  private static String errors(List<Diagnostic> diagnostics) {
    long errors = diagnostics.stream().filter(Diagnostic::isError).count();
    return errors + (errors == 1 ? " error" : " errors");
  }
}
