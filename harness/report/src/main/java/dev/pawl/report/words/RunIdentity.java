package dev.pawl.report.words;

import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.TreeSet;

/**
 * A short name for what a run rests on: the same for the same version and the same files, whenever it was made. It
 * stands on each printed page, so that loose sheets are not mixed up.
 */
public final class RunIdentity {

  private static final int DIGITS = 12;

  private RunIdentity() {}

  /** Twelve hexadecimal digits. */
  public static String of(Report report) {
    TreeSet<String> files = new TreeSet<>();
    for (Input input : report.inputs()) {
      files.add(input.role().label() + " " + input.sha256());
    }
    String all = report.version() + "\n" + report.partial() + "\n" + String.join("\n", files);
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(all.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(digest).substring(0, DIGITS);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
