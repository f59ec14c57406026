package dev.pawl.report.model;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.TreeSet;

/**
 * A short name for what a run rests on and what it found: the same whenever it was made, and whatever persons decide
 * about it, and whatever it is compared with. It stands on each printed page, so that loose sheets are not mixed up,
 * and a review names it.
 */
final class RunIdentity {

  static final int DIGITS = 12;

  private RunIdentity() {}

  /** Twelve hexadecimal digits. */
  static String of(Report report) {
    TreeSet<String> files = new TreeSet<>();
    for (Input input : report.inputs()) {
      if (input.role() != Input.Role.DECISIONS && input.role() != Input.Role.EARLIER) {
        files.add(input.role().label() + " " + input.sha256());
      }
    }
    MessageDigest digest = sha256();
    add(digest, report.version() + "\n" + report.partial() + "\n" + String.join("\n", files));
    for (TraceResult trace : report.traces()) {
      add(digest, trace.reading().failure());
      trace.rules().forEach(rule -> add(digest, rule.rule().id() + " " + rule.obligations() + " " + rule.margin()));
    }
    return HexFormat.of().formatHex(digest.digest()).substring(0, DIGITS);
  }

  private static void add(MessageDigest digest, String text) {
    digest.update((text + "\n").getBytes(StandardCharsets.UTF_8));
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
