package dev.pawl.cli;

import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.json.JsonReportReader;
import dev.pawl.report.json.ReportFormatException;
import dev.pawl.report.text.ComparisonText;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code pawl compare}: what changed for every rule and margin between two reports. */
final class CompareCommand implements Command {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create().name("pawl compare");
    spec.usageMessage().description("What a change did to every rule and margin: verdicts, obligations and margins that differ.",
        "Exit status: 1 if a rule is broken in AFTER that was not in BEFORE, 2 if a report cannot be read, else 0.");
    spec.addPositional(report("0", "BEFORE.json", "The earlier report.json."));
    spec.addPositional(report("1", "AFTER.json", "The later report.json."));
    return spec;
  }

  private static PositionalParamSpec report(String index, String label, String description) {
    return PositionalParamSpec.builder().index(index).paramLabel(label).type(String.class).required(true).description(description).build();
  }

  @Override
  public int run(ParseResult words, Console console) {
    ReportDigest before = read(words.matchedPositionalValue(0, ""));
    ReportDigest after = read(words.matchedPositionalValue(1, ""));
    ReportComparison comparison = ReportComparison.of(before, after);
    console.out().print(ComparisonText.of(comparison, console.style()));
    for (ReportDigest report : new ReportDigest[] {before, after}) {
      if (report.partial()) {
        console.out().println(report.name() + " is partial: its run was interrupted");
      }
    }
    return comparison.newlyBroken() ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
  }

  private static ReportDigest read(String path) {
    try (InputStream in = new BufferedInputStream(Files.newInputStream(Path.of(path)))) {
      return JsonReportReader.read(path, in);
    } catch (ReportFormatException e) {
      throw new CommandException(e.getMessage());
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(path, e));
    }
  }
}
