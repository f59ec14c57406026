package dev.pawl.fleet.work;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/**
 * How far a job is. The coordinator writes it into the job's folder, where whoever waits for the job looks.
 *
 * @param done how many tasks were done by this job
 * @param bad how many of them could not be done
 * @param rows how many rows were judged for them
 */
public record Progress(int done, int bad, long rows) {

  public static final Progress NONE = new Progress(0, 0, 0);

  private static final String FILE = "progress";

  /** What the coordinator wrote last; none where it wrote nothing yet. */
  public static Progress in(Path folder) {
    try {
      String[] words = Files.readString(folder.resolve(FILE)).split(" ");
      return new Progress(Integer.parseInt(words[0]), Integer.parseInt(words[1]), Long.parseLong(words[2]));
    } catch (IOException notYet) {
      return NONE;
    }
  }

  void write(Path folder) throws IOException {
    Path aside = folder.resolve(FILE + ".new");
    Files.writeString(aside, done + " " + bad + " " + rows);
    Files.move(aside, folder.resolve(FILE), StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  /** Takes away what an earlier job wrote. */
  static void clear(Path folder) throws IOException {
    Files.deleteIfExists(folder.resolve(FILE));
  }
}
