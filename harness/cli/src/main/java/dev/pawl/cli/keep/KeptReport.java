package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.report.ReportFormat;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.json.JsonReportReader;
import dev.pawl.report.json.ReportFormatException;
import dev.pawl.run.files.FileTrouble;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * A report that was written before, to be compared with.
 *
 * @param file its report.json
 * @param digest what a comparison needs of it
 */
public record KeptReport(Path file, ReportDigest digest) {

  /**
   * Reads one by its folder or its report.json.
   *
   * @throws CommandException if it cannot be read, or is not as it was written
   */
  public static KeptReport read(String path) {
    Path named = Path.of(path);
    Path file = Files.isDirectory(named) ? named.resolve(ReportFormat.JSON.fileName()) : named;
    requireWhole(file, Files.isDirectory(named));
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
      return new KeptReport(file, JsonReportReader.read(path, in));
    } catch (ReportFormatException e) {
      throw new CommandException(e.getMessage());
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(path, e));
    }
  }

  /**
   * A report that stands where it was written must be as its manifest has it; one that was copied elsewhere has none.
   */
  private static void requireWhole(Path file, boolean folderNamed) {
    Path folder = file.toAbsolutePath().getParent();
    if (!folderNamed && !(file.endsWith(ReportFormat.JSON.fileName()) && Files.exists(folder.resolve(Manifest.NAME)))) {
      return;
    }
    try {
      Optional<String> flaw = Manifest.flaw(folder);
      if (flaw.isPresent()) {
        throw new CommandException(file + ": its folder is no whole report: " + flaw.get());
      }
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(file.toString(), e));
    }
  }
}
