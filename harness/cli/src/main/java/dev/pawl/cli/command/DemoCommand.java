package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.Manifest;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.ReportOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.demo.DemoTraces;
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
import picocli.CommandLine.ParseResult;

/** {@code pawl demo}: makes the traces of the invented ride Kestrel Ridge and checks them, with a report to open. */
public final class DemoCommand implements Command {

  private static final String USUAL_FOLDER = "pawl-out";
  private static final Option<Optional<String>> OUT = ReportOptions.OUT.withHelp(
      "Folder for the traces and the report; usual is " + USUAL_FOLDER + ".");

  @Override
  public Syntax syntax() {
    return new Syntax(List.of(
        "Makes ten traces of the invented ride Kestrel Ridge and checks them against its rules: one of an ordinary day,"
            + " five with something wrong, and four with stops, trouble or mistakes at the desk that the logic deals"
            + " with as it must.",
        "Exit status 0 once it has run: that rules break is what it shows."), List.of(OUT), Optional.empty());
  }

  @Override
  public int run(ParseResult words, Console console) {
    Path out = Path.of(OUT.of(words).orElse(USUAL_FOLDER));
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
        traces.stream().map(trace -> trace.file().toString()).toList(), ReportOptions.quietlyInto(report.toString()));
    console.out().println("Kestrel Ridge, an invented ride: " + traces.size() + " traces made in "
        + out.resolve("traces") + "\n");
    Report result = judged(options, titles, console);
    console.out().print(TextReport.closing(result, console.style()));
    console.out().println("\nOpen " + report.resolve(ReportFormat.HTML.fileName())
        + " to see each finding with its signals, or check a trace yourself:\n"
        + "  " + console.calledAs() + " check --rules " + options.rules().paths().get(0) + " "
        + options.traces().get(1));
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
