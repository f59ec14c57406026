package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.keep.KeptFiles;
import dev.pawl.cli.keep.KeptTrace;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanOptions;
import dev.pawl.logic.code.CodeOptions;
import dev.pawl.logic.runtime.BlockOptions;
import dev.pawl.run.control.LogicSettings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/**
 * How logic under test is run.
 *
 * @param logic its files
 * @param ride folder of the ride that closes the loop; empty for recorded traces
 * @param keep where what was judged is kept
 * @param settings how the program runs
 */
public record ReplayOptions(List<String> logic, Optional<String> ride, Optional<KeptTrace> keep,
    LogicSettings settings) {

  private static final Pattern POWER_CUT = Pattern.compile("(" + Durations.FORM + ")\\s+for\\s+(" + Durations.FORM
      + ")\\s+(warm|cold)");
  private static final int MOST_SEED = Integer.MAX_VALUE;

  /** Adds the options to those that all commands which check have. */
  public static void addTo(CommandSpec spec) {
    addLogic(spec);
    spec.addOption(CheckOptions.text("DIR",
        "Close the loop: trains of the demo ride in this folder move as the logic commands. Then"
        + " scenarios are named instead of traces; all of them if none is.", "--ride"));
    spec.addOption(CheckOptions.text("FILE", "Keep what was judged as a CSV trace, in a file that is not there yet.",
        "--keep"));
    spec.addOption(CheckOptions.flag("The file of --keep may be there, if pawl kept it; its place is taken when the"
        + " new one is whole.", "--replace"));
  }

  /** Adds the options that say what the logic is and how it runs. */
  public static void addLogic(CommandSpec spec) {
    spec.addOption(CheckOptions.list("FILE",
        "Structured Text of the logic under test (*.st); given several times, all files make one program.",
        "-l", "--logic"));
    spec.addOption(CheckOptions.text("TIME", "Time from scan to scan; usual is 10ms.", "--scan"));
    spec.addOption(CheckOptions.text("TIME", "Scans start late by a random time below this.", "--jitter"));
    spec.addOption(CheckOptions.text("TIME", "How long a scan takes that runs long.", "--overrun"));
    spec.addOption(CheckOptions.text("SHARE",
        "Share of scans that run long, 0 to 1; usual is 0.01 where --overrun is given.",
        "--overrun-share"));
    spec.addOption(CheckOptions.text("N", "What random times are drawn from; the same number gives the same run.",
        "--seed"));
    spec.addOption(CheckOptions.list("CUT",
        "A power cut and the restart after it, as in '60s for 5s warm' or '... cold'; counted from the"
        + " start; can be given several times.", "--power-cut"));
    spec.addOption(CheckOptions.text("WAY", "Integers and times that do not fit: wrap (usual) or trap.", "--overflow"));
    spec.addOption(CheckOptions.text("WAY",
        "Reals that do not fit the integer they are converted to: trap (usual), or limit to its range.",
        "--unfit-reals"));
    spec.addOption(CheckOptions.text("TYPE",
        "Integers of less than 32 bits are computed in their own-type (usual) or in dint.",
        "--arithmetic"));
    spec.addOption(CheckOptions.text("FILL",
        "INT_TO_DWORD and the like fill the wider bits with the sign (usual) or with zero.",
        "--wider-bits"));
    spec.addOption(CheckOptions.text("WHEN", "Timers with PT = 0 are done on the same-scan (usual) or the next-scan.",
        "--zero-timers"));
    spec.addOption(CheckOptions.text("WAY",
        "An edge on the call at which the pulse of a TP ends: lost (usual) or next-pulse.",
        "--pulse-edge"));
    spec.addOption(CheckOptions.text("WAY", "After a run-time error: stop (usual) or next-scan.", "--on-error"));
    spec.addOption(CheckOptions.text("N",
        "So many statements may the loops and calls of a scan run before it counts as endless; usual is "
        + LogicOptions.DEFAULT.watchdog() + ".", "--watchdog"));
    spec.addOption(CheckOptions.list("SIGNAL=VARIABLE", "A signal whose variable has another name.", "--variable"));
    spec.addOption(CheckOptions.list("SIGNAL", "A signal that is taken from the trace, whatever the program has.",
        "--as-recorded"));
  }

  /** Reads the options out of the words. */
  public static ReplayOptions of(ParseResult words, String command) {
    List<String> logic = words.matchedOptionValue("--logic", List.<String>of());
    if (logic.isEmpty()) {
      throw new CommandException("no logic: give its Structured Text with --logic ('" + command
          + " --help' shows how)");
    }
    LogicOptions language = new LogicOptions(code(words), blocks(words),
        CheckOptions.number(words, "--watchdog", (int) LogicOptions.DEFAULT.watchdog(), 1, Integer.MAX_VALUE));
    return new ReplayOptions(logic, CheckOptions.value(words, "--ride"), keep(words),
        new LogicSettings(scans(words), language,
        variables(words), new LinkedHashSet<>(words.matchedOptionValue("--as-recorded", List.<String>of()))));
  }

  private static CodeOptions code(ParseResult words) {
    return LogicOptions.DEFAULT.code()
        .with(chosen(words, "--overflow", "wrap", CodeOptions.Overflow.WRAP, "trap", CodeOptions.Overflow.TRAP))
        .with(chosen(words, "--unfit-reals", "trap", CodeOptions.UnfitReal.FAULT, "limit", CodeOptions.UnfitReal.LIMIT))
        .with(chosen(words, "--arithmetic", "own-type", CodeOptions.SmallArithmetic.OWN_TYPE, "dint",
            CodeOptions.SmallArithmetic.DINT))
        .with(chosen(words, "--wider-bits", "sign", CodeOptions.WiderBits.SIGN, "zero", CodeOptions.WiderBits.ZERO));
  }

  private static BlockOptions blocks(ParseResult words) {
    return LogicOptions.DEFAULT.blocks()
        .with(chosen(words, "--zero-timers", "same-scan", BlockOptions.ZeroTime.SAME_SCAN, "next-scan",
            BlockOptions.ZeroTime.NEXT_SCAN))
        .with(chosen(words, "--pulse-edge", "lost", BlockOptions.PulseEdge.LOST, "next-pulse",
            BlockOptions.PulseEdge.NEXT_PULSE));
  }

  /** One of two ways, by its word; the first is the usual one. */
  private static <T> T chosen(ParseResult words, String option, String usualWord, T usual, String otherWord, T other) {
    return choice(words, option, usualWord, otherWord).equals(usualWord) ? usual : other;
  }

  /** Where what is judged is kept: no file that the run reads, and none that a report takes the place of. */
  public static Optional<KeptTrace> keep(ParseResult words) {
    Optional<String> file = CheckOptions.value(words, "--keep");
    boolean replace = words.hasMatchedOption("--replace");
    if (replace && file.isEmpty()) {
      throw new CommandException("--replace: say with --keep which file's place is taken");
    }
    RunInputs.of(words).refuse(file);
    Optional<String> out = CheckOptions.value(words, "--out");
    if (file.isPresent() && out.isPresent() && whole(file.get()).startsWith(whole(out.get()))) {
      throw KeptFiles.refusal(Path.of(file.get()),
          "lies in the folder of --out, which holds the report and nothing else; name a file elsewhere");
    }
    return file.map(name -> KeptTrace.of(name, replace));
  }

  private static Path whole(String path) {
    return Path.of(path).toAbsolutePath().normalize();
  }

  /** The same for other logic. */
  public ReplayOptions withLogic(String file) {
    return new ReplayOptions(List.of(file), ride, keep, settings);
  }

  private static ScanOptions scans(ParseResult words) {
    int seed = CheckOptions.number(words, "--seed", 1, 0, MOST_SEED);
    long period = duration(words, "--scan", ScanOptions.DEFAULT.period());
    long jitter = duration(words, "--jitter", 0);
    long overrun = duration(words, "--overrun", 0);
    if (overrun == 0 && words.hasMatchedOption("--overrun-share")) {
      throw new CommandException("--overrun-share: say with --overrun how long such a scan takes");
    }
    ScanOptions.OnError onError = choice(words, "--on-error", "stop", "next-scan").equals("stop")
        ? ScanOptions.OnError.STOP
        : ScanOptions.OnError.NEXT_SCAN;
    try {
      return new ScanOptions(period, jitter, overrun > 0 ? share(words) : 0, overrun, seed, onError, cuts(words));
    } catch (IllegalArgumentException e) {
      throw new CommandException(e.getMessage());
    }
  }

  private static long duration(ParseResult words, String option, long usual) {
    return CheckOptions.value(words, option).map(text -> Durations.of(option, text)).orElse(usual);
  }

  private static double share(ParseResult words) {
    String text = CheckOptions.value(words, "--overrun-share").orElse("0.01");
    if (!text.matches("0|1|0?\\.\\d{1,9}|1\\.0")) {
      throw new CommandException("--overrun-share: '" + text + "' is not a number from 0 to 1");
    }
    return Double.parseDouble(text);
  }

  private static List<ScanOptions.Outage> cuts(ParseResult words) {
    List<ScanOptions.Outage> cuts = new ArrayList<>();
    for (String text : words.matchedOptionValue("--power-cut", List.<String>of())) {
      Matcher parts = POWER_CUT.matcher(text.strip());
      if (!parts.matches()) {
        throw new CommandException("--power-cut: '" + text
            + "' is not a power cut; write '60s for 5s warm', with warm or cold");
      }
      long start = Durations.of("--power-cut", parts.group(1));
      cuts.add(new ScanOptions.Outage(start, start + Durations.of("--power-cut", parts.group(2)),
          parts.group(3).equals("warm") ? ScanOptions.Restart.WARM : ScanOptions.Restart.COLD));
    }
    cuts.sort(Comparator.comparingLong(ScanOptions.Outage::start));
    return cuts;
  }

  private static String choice(ParseResult words, String option, String usual, String other) {
    String text = CheckOptions.value(words, option).orElse(usual);
    if (!text.equals(usual) && !text.equals(other)) {
      throw new CommandException(option + ": '" + text + "' is not known; write " + usual + " or " + other);
    }
    return text;
  }

  private static Map<String, String> variables(ParseResult words) {
    Map<String, String> variables = new HashMap<>();
    for (String pair : words.matchedOptionValue("--variable", List.<String>of())) {
      int equals = pair.indexOf('=');
      if (equals <= 0 || equals == pair.length() - 1) {
        throw new CommandException("--variable: '" + pair + "' is no pair; write SIGNAL=VARIABLE");
      }
      variables.put(pair.substring(0, equals).strip(), pair.substring(equals + 1).strip());
    }
    return variables;
  }
}
