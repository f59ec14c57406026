package dev.pawl.run.control;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;

/** The file that a run is recorded in, as a trace that is judged the same. Its owner knows where it lies meanwhile. */
public interface RecordingFile {

  /** Its place, once it is whole. */
  Path file();

  /** Opens it, empty. */
  FileChannel open();

  /** Puts it in its place: it is whole. */
  void finish();

  /** Takes it away: nothing of it is of use. */
  void giveUp();

  /** A problem with it, in words for its owner. */
  RuntimeException trouble(IOException problem);
}
