package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.ReportFormat;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.trace.time.TimeScale;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/**
 * What {@code pawl check}, or another command that checks, was asked for.
 *
 * @param rules rule files and folders
 * @param traces traces and folders
 * @param out folder for the report files
 * @param json whether the report goes to standard output as JSON instead of text
 * @param bindings file that maps tags to signals
 * @param timeScale how the traces' times are written
 * @param lenient whether bad rows are left out and counted
 * @param requireProof whether what is undecided or not exercised fails
 * @param jobs how many threads may work
 * @param quiet whether neither progress nor warnings are mentioned
 * @param findings how many findings are kept of each rule
 * @param usable further folders whose files rule files may use
 */
public record CheckOptions(List<String> rules, List<String> traces, Optional<String> out, boolean json,
    Optional<String> bindings,
    Optional<TimeScale> timeScale, boolean lenient, boolean requireProof, int jobs, boolean quiet, int findings,
    List<String> usable) {

  private static final int USUAL_FINDINGS = 20;
  private static final int MOST_FINDINGS = 10_000;
  private static final int MOST_JOBS = 256;

  /**
   * The options of a command that has rules and no traces: what signals there are, and under which prefix without
   * bindings.
   */
  public static CommandSpec rulesSpec(String command, String prefix) {
    CommandSpec spec = CommandSpec.create().name(command);
    addRules(spec);
    addPositional(spec, "RULES", "Rule files (*.rules), as with --rules.");
    spec.addOption(text("FILE", "Bindings: which topic is which signal; without it, signal NAME is on topic " + prefix
        + "/NAME.",
        "--bindings"));
    return spec;
  }

  private static void addRules(CommandSpec spec) {
    spec.addOption(list("PATH",
        "Rule file, or folder of rule files (*.rules); can be given several times. Arguments that end in"
        + " .rules are rule files too.", "-r", "--rules"));
    spec.addOption(RuleOptions.usableFolders());
  }

  /** The options that all commands which check have. */
  public static CommandSpec spec(String command) {
    CommandSpec spec = CommandSpec.create().name(command);
    addRules(spec);
    spec.addOption(text("DIR", "Write " + ReportFormat.inWords(EnumSet.allOf(ReportFormat.class))
        + " into this folder, with a manifest of their"
        + " SHA-256. It is new or empty, or holds a report that pawl wrote, which is replaced as a whole. What is"
            + " judged of many"
        + " recorded traces is kept in DIR.judged until then, where the same command goes on if it is ended.", "-o",
            "--out"));
    spec.addOption(text("FORM", "What goes to standard output: text (usual) or json.", "--format"));
    spec.addOption(text("FILE", "Bindings: which tag of the trace is which signal.", "--bindings"));
    spec.addOption(timeUnit());
    spec.addOption(leniency());
    spec.addOption(flag("Exit with status 3 if nothing is broken but something is undecided or not exercised, or a critical"
        + " rule does not say what tries it.",
        "--require-proof"));
    spec.addOption(text("N", "Work on so many threads; usual is one per processor.", "-j", "--jobs"));
    spec.addOption(text("N", "Keep so many findings of each rule; usual is " + USUAL_FINDINGS
        + ". The rest are counted.",
        "--findings"));
    spec.addOption(flag("Show no progress and no mention of warnings.", "-q", "--quiet"));
    return spec;
  }

  public static OptionSpec timeUnit() {
    return text("UNIT", "How times are written: " + TimeScale.CHOICES + ".", "--time-unit");
  }

  public static OptionSpec leniency() {
    return flag("Leave bad rows out and count them, instead of refusing the trace; a signal whose value cannot be used"
        + " becomes unknown.",
        "--lenient");
  }

  /** The traces, or whatever else a command plays. */
  public static void addTraces(CommandSpec spec, String description) {
    addPositional(spec, "TRACE", description);
  }

  private static void addPositional(CommandSpec spec, String label, String description) {
    spec.addPositional(PositionalParamSpec.builder().index("0..*").paramLabel(label).type(List.class)
        .auxiliaryTypes(String.class).arity("0..*").description(description).build());
  }

  public static OptionSpec text(String label, String description, String... names) {
    return OptionSpec.builder(names).paramLabel(label).type(String.class).arity("1").description(description).build();
  }

  static OptionSpec list(String label, String description, String... names) {
    return OptionSpec.builder(names).paramLabel(label).type(List.class).auxiliaryTypes(String.class).arity("1")
        .description(description).build();
  }

  public static OptionSpec flag(String description, String... names) {
    return OptionSpec.builder(names).type(boolean.class).arity("0").description(description).build();
  }

  /** The same with another folder for the report files. */
  public CheckOptions withOut(Optional<String> folder) {
    return new CheckOptions(rules, traces, folder, json, bindings, timeScale, lenient, requireProof, jobs, quiet,
        findings,
        usable);
  }

  /** Reads the options out of the words, of which at least one has to be a trace. */
  public static CheckOptions of(ParseResult words, String command) {
    CheckOptions options = withoutTraces(words, command);
    if (options.traces().isEmpty()) {
      throw new CommandException("no trace: name at least one after the options ('" + command + " --help' shows how)");
    }
    return options;
  }

  /** The same for commands that read no trace. */
  public static CheckOptions rulesOnly(ParseResult words, String command) {
    CheckOptions options = withoutTraces(words, command);
    if (!options.traces().isEmpty()) {
      throw new CommandException(options.traces().get(0) + ": " + command
          + " takes rule files (*.rules) and no traces; a folder of rules"
          + " goes with --rules");
    }
    return options;
  }

  /** The same for commands that can do without a trace. */
  public static CheckOptions withoutTraces(ParseResult words, String command) {
    List<String> rules = new ArrayList<>(words.matchedOptionValue("--rules", List.<String>of()));
    List<String> traces = new ArrayList<>();
    for (String path : words.matchedPositionalValue(0, List.<String>of())) {
      (RuleOptions.isRuleFile(path) ? rules : traces).add(path);
    }
    if (rules.isEmpty()) {
      throw new CommandException("no rules: give a rule file or folder with --rules ('" + command
          + " --help' shows how)");
    }
    int processors = Runtime.getRuntime().availableProcessors();
    return new CheckOptions(rules, traces, value(words, "--out"), json(words), value(words, "--bindings"),
        timeScale(words),
        words.hasMatchedOption("--lenient"), words.hasMatchedOption("--require-proof"),
            number(words, "--jobs", processors, 1,
            MOST_JOBS),
        words.hasMatchedOption("--quiet"), number(words, "--findings", USUAL_FINDINGS, 0, MOST_FINDINGS),
        RuleOptions.usableFolders(words));
  }

  public static Optional<String> value(ParseResult words, String option) {
    return Optional.ofNullable(words.matchedOptionValue(option, (String) null));
  }

  public static boolean json(ParseResult words) {
    String format = value(words, "--format").orElse("text");
    if (!format.equals("text") && !format.equals("json")) {
      throw new CommandException("--format: '" + format + "' is not known; write text or json");
    }
    return format.equals("json");
  }

  public static Optional<TimeScale> timeScale(ParseResult words) {
    Optional<String> name = value(words, "--time-unit");
    Optional<TimeScale> scale = name.flatMap(TimeScale::of);
    if (name.isPresent() && scale.isEmpty()) {
      throw new CommandException("--time-unit: '" + name.get() + "' is not known; write " + TimeScale.CHOICES);
    }
    return scale;
  }

  /** The bindings, or none where no file was named; what is doubtful in the file goes to the console. */
  public static BindingsFiles bindings(Optional<String> file, RuleBook book, Console console) {
    BindingsFiles bindings = file.map(name -> BindingsFiles.load(name, book)).orElse(BindingsFiles.NONE);
    console.err().print(bindings.warnings());
    return bindings;
  }

  public static int number(ParseResult words, String option, int usual, int least, int most) {
    Optional<String> text = value(words, option);
    if (text.isEmpty()) {
      return usual;
    }
    try {
      int number = Integer.parseInt(text.get());
      if (number >= least && number <= most) {
        return number;
      }
    } catch (NumberFormatException e) {
      // Said below, as for a number out of range.
    }
    throw new CommandException(option + ": '" + text.get() + "' is not a whole number from " + least + " to " + most);
  }
}
