package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.Manifest;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.demo.DemoTraces;
import dev.pawl.plant.layout.LayoutException;
import dev.pawl.report.ReportFormat;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.text.TextReport;
import dev.pawl.run.Controller;
import dev.pawl.run.files.FileTrouble;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code pawl demo}: makes the traces of the invented ride Kestrel Ridge and checks them, with a report to open. */
public final class DemoCommand implements Command {

  private static final String USUAL_FOLDER = "pawl-out";
  private static final int FINDINGS = 20;

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create().name("pawl demo");
    spec.usageMessage()
        .description("Makes ten traces of the invented ride Kestrel Ridge and checks them against its rules: one of"
        + " an ordinary day, five with something"
        + " wrong, and four with stops, trouble or mistakes at the desk that the logic deals with as it must.",
        "Exit status 0 once it has run: that rules break is what it shows.");
    spec.addOption(OptionSpec.builder("-o", "--out").paramLabel("DIR").type(String.class).arity("1")
        .description("Folder for the traces and the report; usual is " + USUAL_FOLDER + ".").build());
    return spec;
  }

  @Override
  public int run(ParseResult words, Console console) {
    Path out = Path.of(words.matchedOptionValue("--out", USUAL_FOLDER));
    Path ride = nearName(console.home().resolve("fixtures/kestrel-ridge"));
    if (!Files.isDirectory(ride)) {
      throw new CommandException("the demo ride is not at " + ride
          + "; run pawl out of a whole checkout or an unpacked archive");
    }
    Path report = out.resolve("report");
    requireOwn(out.resolve("traces"), report);
    Map<String, String> titles = new HashMap<>();
    List<DemoTraces.DemoTrace> traces = traces(ride, out.resolve("traces"));
    traces.forEach(trace -> titles.put(trace.file().toString(), trace.title()));
    CheckOptions options = new CheckOptions(List.of(ride.resolve("kestrel-ridge.rules").toString()),
        traces.stream().map(trace -> trace.file().toString()).toList(), Optional.of(report.toString()), false,
            Optional.empty(),
        Optional.empty(), false, false, Runtime.getRuntime().availableProcessors(), true, FINDINGS, List.of());
    console.out().println("Kestrel Ridge, an invented ride: " + traces.size() + " traces made in "
        + out.resolve("traces") + "\n");
    Report result = judged(options, titles, console);
    console.out().print(TextReport.closing(result, console.style()));
    console.out().println("\nOpen " + report.resolve(ReportFormat.HTML.fileName())
        + " to see each finding with its signals, or check a trace yourself:\n"
        + "  " + console.calledAs() + " check --rules " + options.rules().get(0) + " " + options.traces().get(1));
    return result.hasFailure() ? ExitStatus.WRONG_INPUT : ExitStatus.NOTHING_BROKEN;
  }

  private static Report judged(CheckOptions options, Map<String, String> titles, Console console) {
    try (CheckJob job = CheckJob.begin(options, console)) {
      return job.judge(Controller.NONE, job.traces(), trace -> tell(trace, titles, console));
    }
  }

  /** Traces are written only where there are none, or beside the report of an earlier demo. */
  private static void requireOwn(Path traces, Path report) {
    try {
      if (Files.exists(traces) && Manifest.flaw(report).isPresent()) {
        throw new CommandException(traces
            + ": is there already, without the report of an earlier demo beside it, and stays; name another folder"
            + " with --out");
      }
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(report.toString(), e));
    }
  }

  private static List<DemoTraces.DemoTrace> traces(Path ride, Path folder) {
    try {
      return DemoTraces.write(ride, folder);
    } catch (IOException e) {
      throw new CommandException("the demo's traces cannot be made: " + FileTrouble.message(folder.toString(), e));
    } catch (LayoutException e) {
      throw new CommandException(e.getMessage());
    }
  }

  private static void tell(TraceResult result, Map<String, String> titles, Console console) {
    console.out().println(titles.getOrDefault(result.path(), ""));
    console.out().print(TextReport.brief(result, console.style()));
    console.out().flush();
  }

  /** The same path from the working folder, where it lies below that. */
  private static Path nearName(Path path) {
    Path here = Path.of("").toAbsolutePath();
    Path whole = path.toAbsolutePath().normalize();
    return whole.startsWith(here) ? here.relativize(whole) : whole;
  }
}
