package dev.pawl.fleet.manifest;

import dev.pawl.run.RunException;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.apache.flink.core.fs.FileStatus;
import org.apache.flink.core.fs.Path;

/** Files by addresses, such as those of an object store, through the file systems of Flink. */
public final class Places {

  /** A scheme of one letter would be a drive. */
  private static final Pattern ADDRESS = Pattern.compile("[a-z][a-z0-9+.-]+:/.*");

  private static final Pattern KEYS = Pattern.compile("[a-z][a-z0-9+.-]+://[^/]*@.*");

  private Places() {}

  /** Whether a place is an address and no path of this machine. */
  public static boolean isAddress(String place) {
    return ADDRESS.matcher(place).matches();
  }

  /** Whether an address says who may read it: a user, and a password, before the host (RFC 3986, section 3.2.1). */
  static boolean holdsKeys(String place) {
    return KEYS.matcher(place).matches();
  }

  /** The file at an address; of a folder all files below it, by name, that are wanted. */
  static List<String> files(String address, Predicate<String> wanted) {
    try {
      Path path = new Path(address);
      FileStatus status = path.getFileSystem().getFileStatus(path);
      if (!status.isDir()) {
        return List.of(address);
      }
      List<String> files = new ArrayList<>();
      add(path, wanted, files);
      if (files.isEmpty()) {
        throw new RunException(address + ": this folder holds no traces");
      }
      return files;
    } catch (FileNotFoundException e) {
      // That it is not there is told in its result.
      return List.of(address);
    } catch (RunException e) {
      throw e;
    } catch (IOException | RuntimeException e) {
      // Plugins throw what they like.
      throw new RunException(address + ": cannot be looked at: " + (e.getMessage() == null ? e : e.getMessage()));
    }
  }

  private static void add(Path folder, Predicate<String> wanted, List<String> files) throws IOException {
    List<FileStatus> inside = new ArrayList<>(List.of(folder.getFileSystem().listStatus(folder)));
    inside.sort(Comparator.comparing(status -> status.getPath().getName()));
    for (FileStatus each : inside) {
      if (each.isDir()) {
        add(each.getPath(), wanted, files);
      } else if (wanted.test(each.getPath().getName())) {
        files.add(each.getPath().toString());
      }
    }
  }
}
