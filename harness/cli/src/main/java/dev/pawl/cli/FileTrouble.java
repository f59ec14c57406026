package dev.pawl.cli;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;

/** What went wrong with a file, in words. */
final class FileTrouble {

  private FileTrouble() {}

  static String message(String path, IOException problem) {
    if (problem instanceof NoSuchFileException) {
      return path + ": no such file or folder";
    } else if (problem instanceof AccessDeniedException) {
      return path + ": access denied";
    } else if (problem instanceof NotDirectoryException) {
      return path + ": not a folder";
    } else if (problem instanceof FileAlreadyExistsException || problem instanceof DirectoryNotEmptyException) {
      return path + ": is in the way";
    }
    return path + ": " + problem.getMessage();
  }
}
