package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.report.html.HandbookWriter;
import dev.pawl.report.model.Handbook;
import dev.pawl.run.files.FileTrouble;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.stream.Stream;

/**
 * The folder of a handbook, which is new or empty: nothing in it is ever written over. The page that leads to the
 * others is written last, so that it is there only where all of them are.
 */
public final class HandbookFolder {

  private HandbookFolder() {}

  /** Writes all pages; gives the one to open. */
  public static Path write(Handbook handbook, String folder) {
    Path place = Path.of(folder);
    try {
      requireEmpty(place);
      Files.createDirectories(place);
      for (Handbook.Entry entry : handbook.entries()) {
        try (Writer out = open(place.resolve(entry.page()))) {
          HandbookWriter.writeRule(handbook, entry, out);
        }
      }
      try (Writer out = open(place.resolve(HandbookWriter.CHECKLIST))) {
        HandbookWriter.writeChecklist(handbook, out);
      }
      Path index = place.resolve(HandbookWriter.INDEX);
      try (Writer out = open(index)) {
        HandbookWriter.writeIndex(handbook, out);
      }
      return index;
    } catch (IOException e) {
      throw new CommandException("the handbook cannot be written: " + FileTrouble.message(folder, e));
    }
  }

  private static Writer open(Path page) throws IOException {
    return Files.newBufferedWriter(page, StandardOpenOption.CREATE_NEW);
  }

  private static void requireEmpty(Path place) throws IOException {
    if (!Files.exists(place, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    if (!Files.isDirectory(place)) {
      throw new CommandException("--out: " + place + ": is not a folder");
    }
    try (Stream<Path> files = Files.list(place)) {
      if (files.findAny().isPresent()) {
        throw new CommandException("--out: " + place
            + ": is not empty, and a handbook writes over nothing; name a new folder");
      }
    }
  }
}
