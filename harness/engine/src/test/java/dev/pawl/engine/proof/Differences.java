package dev.pawl.engine.proof;

import dev.pawl.engine.Margin;
import dev.pawl.engine.reference.Judgement;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** In what two judgements of one trace differ. */
final class Differences {

  /** Relative difference up to which two margins count as the same number. */
  private static final double EXACTNESS = 1e-12;

  private Differences() {}

  static boolean inRule(Judgement.OfRule expected, Judgement.OfRule actual) {
    return !expected.obligations().equals(actual.obligations()) || expected.watched() != actual.watched()
        || expected.unconfirmed() != actual.unconfirmed() || !expected.tried().equals(actual.tried())
        || !expected.findings().equals(actual.findings()) || !expected.late().equals(actual.late())
        || !sameMargin(expected.margins(), actual.margins());
  }

  static boolean inZones(Judgement expected, Judgement actual) {
    return !expected.zones().equals(actual.zones());
  }

  static boolean any(Judgement expected, Judgement actual) {
    if (inZones(expected, actual) || !expected.signals().equals(actual.signals())) {
      return true;
    }
    for (int rule = 0; rule < expected.rules().size(); rule++) {
      if (inRule(expected.rules().get(rule), actual.rules().get(rule))) {
        return true;
      }
    }
    return false;
  }

  static List<String> describe(Judgement expected, Judgement actual) {
    List<String> lines = new ArrayList<>();
    for (int rule = 0; rule < expected.rules().size(); rule++) {
      Judgement.OfRule wanted = expected.rules().get(rule);
      Judgement.OfRule got = actual.rules().get(rule);
      if (inRule(wanted, got)) {
        describe(lines, "R-" + rule + " obligations", wanted.obligations(), got.obligations());
        describe(lines, "R-" + rule + " tried", wanted.tried(), got.tried());
        describe(lines, "R-" + rule + " unconfirmed", wanted.unconfirmed(), got.unconfirmed());
        describe(lines, "R-" + rule + " watched", wanted.watched(), got.watched());
        describe(lines, "R-" + rule + " margin", wanted.margins(), got.margins());
        describe(lines, "R-" + rule + " findings", wanted.findings(), got.findings());
        describe(lines, "R-" + rule + " late", wanted.late(), got.late());
      }
    }
    describe(lines, "zones", expected.zones(), actual.zones());
    describe(lines, "signals", expected.signals(), actual.signals());
    return lines;
  }

  private static void describe(List<String> lines, String what, Object expected, Object actual) {
    if (!expected.equals(actual)) {
      lines.add(what + "\n    expected " + expected + "\n    actual   " + actual);
    }
  }

  private static boolean sameMargin(Set<Margin> expected, Set<Margin> actual) {
    return actual.isEmpty() ? expected.isEmpty() : expected.stream()
        .anyMatch(one -> same(one, actual.iterator().next()));
  }

  private static boolean same(Margin wanted, Margin got) {
    double scale = Math.max(Math.abs(wanted.value()), Math.abs(got.value()));
    return Math.abs(wanted.value() - got.value()) <= EXACTNESS * scale && wanted.unit().equals(got.unit())
        && wanted.time() == got.time() && wanted.trigger() == got.trigger() && wanted.atMost() == got.atMost();
  }
}
