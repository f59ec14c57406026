package dev.pawl.cli;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;

/** What went wrong with a file, in words. */
final class FileTrouble {

  private FileTrouble() {}

  /** {@code path: reason}. */
  static String message(String path, IOException problem) {
    return path + ": " + reason(problem);
  }

  static String reason(IOException problem) {
    if (problem instanceof NoSuchFileException) {
      return "no such file or folder";
    } else if (problem instanceof AccessDeniedException) {
      return "access denied";
    } else if (problem instanceof NotDirectoryException) {
      return "not a folder";
    } else if (problem instanceof FileAlreadyExistsException || problem instanceof DirectoryNotEmptyException) {
      return "something else of this name is in the way";
    } else if (problem instanceof FileSystemException file && file.getReason() != null) {
      return file.getReason();
    }
    return problem.getMessage() == null ? problem.getClass().getSimpleName() : problem.getMessage();
  }
}
