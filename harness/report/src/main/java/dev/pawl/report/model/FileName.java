package dev.pawl.report.model;

/** The name of a file without its folders, whichever system wrote the path. */
public final class FileName {

  private FileName() {}

  public static String of(String path) {
    return path.substring(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
  }
}
