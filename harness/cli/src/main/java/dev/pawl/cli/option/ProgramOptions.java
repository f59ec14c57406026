package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanOptions;
import dev.pawl.logic.code.CodeOptions;
import dev.pawl.logic.runtime.BlockOptions;
import dev.pawl.run.control.LogicSettings;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import picocli.CommandLine.ParseResult;

/** Which program is under test, written or drawn, and how it runs. */
public final class ProgramOptions {

  public static final Option<List<String>> LOGIC = Option.list("FILE",
      "The logic under test: Structured Text (*.st), or a project drawn in the exchange format (*.xml); given several"
          + " times, all files make one program.", "-l", "--logic");
  private static final Option<Optional<Duration>> SCAN = Option.text("TIME",
      "Time from scan to scan; usual is 10ms.", "--scan").as(TimeSpan::optional).usually("10ms");
  private static final Option<Optional<Duration>> JITTER = Option.text("TIME",
      "Scans start late by a random time below this.", "--jitter").as(TimeSpan::optional);
  private static final Option<Optional<Duration>> OVERRUN = Option.text("TIME",
      "How long a scan takes that runs long.", "--overrun").as(TimeSpan::optional);
  private static final Option<Double> OVERRUN_SHARE = Option.text("SHARE",
      "Share of scans that run long, 0 to 1; usual is 0.01 where --overrun is given.", "--overrun-share")
      .as(ProgramOptions::share);
  private static final Option<Map<String, ScanOptions.Pace>> TASK = Option.list("PACE",
      "How exactly one task of a configuration keeps its times, as in 'Logger jitter 5ms overrun 30ms share 0.1', each"
          + " part but the name may be left out; can be given several times.", "--task").as(ProgramOptions::paces);
  public static final Option<Integer> SEED = Option.text("N",
      "What random times are drawn from; the same number gives the same run.", "--seed")
      .as(Meaning.number(1, 0, Integer.MAX_VALUE));
  private static final Option<List<ScanOptions.Outage>> POWER_CUT = Option.list("CUT",
      "A power cut and the restart after it, as in '60s for 5s warm' or '... cold'; counted from the start; can be"
          + " given several times.", "--power-cut").as(ProgramOptions::cuts);
  private static final Option<CodeOptions.Overflow> OVERFLOW = Option.text("WAY",
      "Integers and times that do not fit: wrap (usual) or trap.", "--overflow")
      .as(Meaning.either("wrap", CodeOptions.Overflow.WRAP, "trap", CodeOptions.Overflow.TRAP));
  private static final Option<CodeOptions.UnfitReal> UNFIT_REALS = Option.text("WAY",
      "Reals that do not fit the integer they are converted to: trap (usual), or limit to its range.", "--unfit-reals")
      .as(Meaning.either("trap", CodeOptions.UnfitReal.FAULT, "limit", CodeOptions.UnfitReal.LIMIT))
      .usually("trap");
  private static final Option<CodeOptions.SmallArithmetic> ARITHMETIC = Option.text("TYPE",
      "Integers of less than 32 bits are computed in their own-type (usual) or in dint.", "--arithmetic")
      .as(Meaning.either("own-type", CodeOptions.SmallArithmetic.OWN_TYPE, "dint", CodeOptions.SmallArithmetic.DINT));
  private static final Option<CodeOptions.WiderBits> WIDER_BITS = Option.text("FILL",
      "INT_TO_DWORD and the like fill the wider bits with the sign (usual) or with zero.", "--wider-bits")
      .as(Meaning.either("sign", CodeOptions.WiderBits.SIGN, "zero", CodeOptions.WiderBits.ZERO));
  private static final Option<BlockOptions.ZeroTime> ZERO_TIMERS = Option.text("WHEN",
      "Timers with PT = 0 are done on the same-scan (usual) or the next-scan.", "--zero-timers")
      .as(Meaning.either("same-scan", BlockOptions.ZeroTime.SAME_SCAN, "next-scan", BlockOptions.ZeroTime.NEXT_SCAN));
  private static final Option<BlockOptions.PulseEdge> PULSE_EDGE = Option.text("WAY",
      "An edge on the call at which the pulse of a TP ends: lost (usual) or next-pulse.", "--pulse-edge")
      .as(Meaning.either("lost", BlockOptions.PulseEdge.LOST, "next-pulse", BlockOptions.PulseEdge.NEXT_PULSE));
  private static final Option<BlockOptions.FirstFallingEdge> FIRST_F_TRIG = Option.text("WAY",
      "F_TRIG on a first call with CLK = FALSE: pulse (usual) or no-pulse.", "--first-f-trig")
      .as(Meaning.either("pulse", BlockOptions.FirstFallingEdge.PULSE, "no-pulse",
          BlockOptions.FirstFallingEdge.NO_PULSE));
  private static final Option<BlockOptions.OffDelayStart> FIRST_TOF = Option.text("WAY",
      "TOF on a first call with IN = FALSE: off (usual), or on for PT.", "--first-tof")
      .as(Meaning.either("off", BlockOptions.OffDelayStart.OFF, "on", BlockOptions.OffDelayStart.ON_FOR_PT));
  private static final Option<CodeOptions.BooleanEvaluation> AND_OR = Option.text("WAY",
      "AND and OR evaluate both operands (usual), or only what is needed.", "--and-or")
      .as(Meaning.either("both", CodeOptions.BooleanEvaluation.FULL, "needed",
          CodeOptions.BooleanEvaluation.SHORT_CIRCUIT));
  private static final Option<CodeOptions.ModuloByZero> MODULO_BY_ZERO = Option.text("WAY",
      "x MOD 0: trap (usual) or zero.", "--modulo-by-zero")
      .as(Meaning.either("trap", CodeOptions.ModuloByZero.FAULT, "zero", CodeOptions.ModuloByZero.ZERO));
  private static final Option<Elementary> ENUMERATIONS = Option.text("TYPE",
      "Enumerations declared without a type are held in a dint (usual) or an int.", "--enumerations")
      .as(Meaning.either("dint", Elementary.DINT, "int", Elementary.INT));
  private static final Option<LanguageChoices.Addresses> ADDRESSES = Option.text("UNIT",
      "The number in an address such as %QW4 counts bytes, or places of that size (sizes), which share no memory with"
          + " those of another size (apart); usual is what the program's own addresses show.", "--addresses")
      .as(ProgramOptions::addresses);
  private static final Option<Set<Allowance>> ALLOW = Option.list("WHAT",
      "Read with a warning what the standard does not have: " + Arrays.stream(Allowance.values()).map(Allowance::word)
          .collect(Collectors.joining(", ")) + "; can be given several times.", "--allow")
      .as(ProgramOptions::allowances);
  private static final Option<ScanOptions.OnError> ON_ERROR = Option.text("WAY",
      "After a run-time error: stop (usual) or next-scan.", "--on-error")
      .as(Meaning.either("stop", ScanOptions.OnError.STOP, "next-scan", ScanOptions.OnError.NEXT_SCAN));
  private static final Option<Integer> WATCHDOG = Option.text("N",
      "So many statements may the loops and calls of a scan run before it counts as endless; usual is "
          + LogicOptions.DEFAULT.watchdog() + ".", "--watchdog")
      .as(Meaning.number((int) LogicOptions.DEFAULT.watchdog(), 1, Integer.MAX_VALUE));
  private static final Option<Map<String, String>> VARIABLE = Option.list("SIGNAL=VARIABLE",
      "A signal whose variable has another name.", "--variable").as(ProgramOptions::variables);
  private static final Option<List<String>> AS_RECORDED = Option.list("SIGNAL",
      "A signal that is taken from the trace, whatever the program has.", "--as-recorded");

  /** The options of a command that runs a program. */
  public static final List<Option<?>> ALL = List.of(LOGIC, SCAN, JITTER, OVERRUN, OVERRUN_SHARE, TASK, SEED, POWER_CUT,
      OVERFLOW, UNFIT_REALS, ARITHMETIC, WIDER_BITS, AND_OR, MODULO_BY_ZERO, ZERO_TIMERS, PULSE_EDGE, FIRST_F_TRIG,
      FIRST_TOF, ENUMERATIONS, ADDRESSES, ALLOW, ON_ERROR, WATCHDOG, VARIABLE,
      AS_RECORDED);

  private static final Pattern PACE = Pattern.compile("(\\S+)(?:\\s+jitter\\s+(" + TimeSpan.FORM
      + "))?(?:\\s+overrun\\s+(" + TimeSpan.FORM + ")(?:\\s+share\\s+(\\S+))?)?");

  private static final Pattern CUT = Pattern.compile("(" + TimeSpan.FORM + ")\\s+for\\s+(" + TimeSpan.FORM
      + ")\\s+(warm|cold)");

  private ProgramOptions() {}

  /** The files of the program, of which there must be one. */
  static List<String> files(ParseResult words) {
    List<String> logic = LOGIC.of(words);
    if (logic.isEmpty()) {
      throw new CommandException("no logic: give its Structured Text or drawn project with --logic"
          + RuleOptions.howTo(words));
    }
    return logic;
  }

  public static LogicSettings settings(ParseResult words) {
    CodeOptions code = LogicOptions.DEFAULT.code().with(OVERFLOW.of(words)).with(UNFIT_REALS.of(words))
        .with(ARITHMETIC.of(words)).with(WIDER_BITS.of(words)).with(AND_OR.of(words)).with(MODULO_BY_ZERO.of(words));
    BlockOptions blocks = LogicOptions.DEFAULT.blocks().with(ZERO_TIMERS.of(words)).with(PULSE_EDGE.of(words))
        .with(FIRST_F_TRIG.of(words)).with(FIRST_TOF.of(words));
    LogicOptions language = new LogicOptions(code, blocks, WATCHDOG.of(words));
    LanguageChoices choices = LanguageChoices.DEFAULT.with(ALLOW.of(words)).with(ENUMERATIONS.of(words))
        .with(ADDRESSES.of(words));
    return new LogicSettings(scans(words), language, choices, VARIABLE.of(words),
        new LinkedHashSet<>(AS_RECORDED.of(words)));
  }

  private static ScanOptions scans(ParseResult words) {
    int seed = SEED.of(words);
    long period = SCAN.of(words).map(Duration::toNanos).orElse(ScanOptions.DEFAULT.period());
    long jitter = JITTER.of(words).map(Duration::toNanos).orElse(0L);
    long overrun = OVERRUN.of(words).map(Duration::toNanos).orElse(0L);
    if (overrun == 0 && OVERRUN_SHARE.isGiven(words)) {
      throw new CommandException("--overrun-share: say with --overrun how long such a scan takes");
    }
    try {
      ScanOptions.Pace pace = new ScanOptions.Pace(jitter, overrun > 0 ? OVERRUN_SHARE.of(words) : 0, overrun);
      return new ScanOptions(period, pace, TASK.of(words), seed, ON_ERROR.of(words), POWER_CUT.of(words));
    } catch (IllegalArgumentException e) {
      throw new CommandException(e.getMessage());
    }
  }

  private static LanguageChoices.Addresses addresses(String option, Optional<String> word) {
    return word.isEmpty() ? LanguageChoices.Addresses.BY_USE : word.get().equals("apart")
        ? LanguageChoices.Addresses.APART
        : Meaning.either("bytes", LanguageChoices.Addresses.BYTES, "sizes", LanguageChoices.Addresses.SIZES)
            .of(option, word);
  }

  private static Set<Allowance> allowances(String option, List<String> words) {
    Set<Allowance> allowed = new HashSet<>();
    List<String> known = Arrays.stream(Allowance.values()).map(Allowance::word).toList();
    for (String word : words) {
      if (!known.contains(word)) {
        throw new CommandException(option + ": '" + word + "' is not known; write one of " + String.join(", ", known));
      }
      allowed.add(Allowance.values()[known.indexOf(word)]);
    }
    return allowed;
  }

  private static Map<String, ScanOptions.Pace> paces(String option, List<String> words) {
    Map<String, ScanOptions.Pace> paces = new HashMap<>();
    for (String text : words) {
      Matcher parts = PACE.matcher(text.strip());
      if (!parts.matches()) {
        throw new CommandException(option + ": '" + text
            + "' does not say how a task keeps its times; write 'Logger jitter 5ms overrun 30ms share 0.1'");
      }
      long jitter = parts.group(2) == null ? 0 : TimeSpan.of(option, parts.group(2)).toNanos();
      long overrun = parts.group(3) == null ? 0 : TimeSpan.of(option, parts.group(3)).toNanos();
      double share = overrun == 0 ? 0 : share(option, Optional.ofNullable(parts.group(4)));
      paces.put(parts.group(1).toUpperCase(Locale.ROOT), new ScanOptions.Pace(jitter, share, overrun));
    }
    return paces;
  }

  private static double share(String option, Optional<String> word) {
    String text = word.orElse("0.01");
    if (!text.matches("0|1|0?\\.\\d{1,9}|1\\.0")) {
      throw new CommandException(option + ": '" + text + "' is not a number from 0 to 1");
    }
    return Double.parseDouble(text);
  }

  private static List<ScanOptions.Outage> cuts(String option, List<String> words) {
    List<ScanOptions.Outage> cuts = new ArrayList<>();
    for (String text : words) {
      Matcher parts = CUT.matcher(text.strip());
      if (!parts.matches()) {
        throw new CommandException(option + ": '" + text
            + "' is not a power cut; write '60s for 5s warm', with warm or cold");
      }
      long start = TimeSpan.of(option, parts.group(1)).toNanos();
      cuts.add(new ScanOptions.Outage(start, start + TimeSpan.of(option, parts.group(2)).toNanos(),
          parts.group(3).equals("warm") ? ScanOptions.Restart.WARM : ScanOptions.Restart.COLD));
    }
    cuts.sort(Comparator.comparingLong(ScanOptions.Outage::start));
    return cuts;
  }

  private static Map<String, String> variables(String option, List<String> words) {
    Map<String, String> variables = new HashMap<>();
    for (String pair : words) {
      int equals = pair.indexOf('=');
      if (equals <= 0 || equals == pair.length() - 1) {
        throw new CommandException(option + ": '" + pair + "' is no pair; write SIGNAL=VARIABLE");
      }
      variables.put(pair.substring(0, equals).strip(), pair.substring(equals + 1).strip());
    }
    return variables;
  }
}
