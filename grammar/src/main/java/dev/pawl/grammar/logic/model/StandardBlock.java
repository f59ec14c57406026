package dev.pawl.grammar.logic.model;

import static dev.pawl.grammar.logic.model.Elementary.BOOL;
import static dev.pawl.grammar.logic.model.Elementary.DINT;
import static dev.pawl.grammar.logic.model.Elementary.INT;
import static dev.pawl.grammar.logic.model.Elementary.LINT;
import static dev.pawl.grammar.logic.model.Elementary.LTIME;
import static dev.pawl.grammar.logic.model.Elementary.TIME;
import static dev.pawl.grammar.logic.model.Elementary.UDINT;
import static dev.pawl.grammar.logic.model.Elementary.ULINT;

import dev.pawl.grammar.source.Position;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * The function blocks of the standard's tables 43 to 46. Slots of an instance: inputs, outputs, then hidden memory, in
 * the order given here; the run time relies on that order.
 */
public enum StandardBlock {
  SR(inputs("S1", "R"), outputs("Q1"), 0),
  RS(inputs("S", "R1"), outputs("Q1"), 0),
  R_TRIG(inputs("CLK"), outputs("Q"), 1),
  F_TRIG(inputs("CLK"), outputs("Q"), 1),
  CTU(INT, inputs("CU", "R", "PV#"), outputs("Q", "CV#")),
  CTU_DINT(DINT, inputs("CU", "R", "PV#"), outputs("Q", "CV#")),
  CTU_LINT(LINT, inputs("CU", "R", "PV#"), outputs("Q", "CV#")),
  CTU_UDINT(UDINT, inputs("CU", "R", "PV#"), outputs("Q", "CV#")),
  CTU_ULINT(ULINT, inputs("CU", "R", "PV#"), outputs("Q", "CV#")),
  CTD(INT, inputs("CD", "LD", "PV#"), outputs("Q", "CV#")),
  CTD_DINT(DINT, inputs("CD", "LD", "PV#"), outputs("Q", "CV#")),
  CTD_LINT(LINT, inputs("CD", "LD", "PV#"), outputs("Q", "CV#")),
  CTD_UDINT(UDINT, inputs("CD", "LD", "PV#"), outputs("Q", "CV#")),
  CTD_ULINT(ULINT, inputs("CD", "LD", "PV#"), outputs("Q", "CV#")),
  CTUD(INT, inputs("CU", "CD", "R", "LD", "PV#"), outputs("QU", "QD", "CV#")),
  CTUD_DINT(DINT, inputs("CU", "CD", "R", "LD", "PV#"), outputs("QU", "QD", "CV#")),
  CTUD_UDINT(UDINT, inputs("CU", "CD", "R", "LD", "PV#"), outputs("QU", "QD", "CV#")),
  CTUD_LINT(LINT, inputs("CU", "CD", "R", "LD", "PV#"), outputs("QU", "QD", "CV#")),
  CTUD_ULINT(ULINT, inputs("CU", "CD", "R", "LD", "PV#"), outputs("QU", "QD", "CV#")),
  TP(TIME, inputs("IN", "PT#"), outputs("Q", "ET#")),
  TP_TIME(TIME, inputs("IN", "PT#"), outputs("Q", "ET#")),
  TP_LTIME(LTIME, inputs("IN", "PT#"), outputs("Q", "ET#")),
  TON(TIME, inputs("IN", "PT#"), outputs("Q", "ET#")),
  TON_TIME(TIME, inputs("IN", "PT#"), outputs("Q", "ET#")),
  TON_LTIME(LTIME, inputs("IN", "PT#"), outputs("Q", "ET#")),
  TOF(TIME, inputs("IN", "PT#"), outputs("Q", "ET#")),
  TOF_TIME(TIME, inputs("IN", "PT#"), outputs("Q", "ET#")),
  TOF_LTIME(LTIME, inputs("IN", "PT#"), outputs("Q", "ET#"));

  private final BlockType type;
  private final Elementary counted;

  StandardBlock(String[] inputs, String[] outputs, int hidden) {
    this(BOOL, inputs, outputs, hidden);
  }

  /** Counters and timers keep two hidden words: previous edges or phase, and the start of the timing. */
  StandardBlock(Elementary counted, String[] inputs, String[] outputs) {
    this(counted, inputs, outputs, 2);
  }

  StandardBlock(Elementary counted, String[] inputs, String[] outputs, int hidden) {
    this.counted = counted;
    this.type = new BlockType(name(), Optional.of(this));
    for (String input : inputs) {
      add(input, Variable.Role.INPUT);
    }
    for (String output : outputs) {
      add(output, Variable.Role.OUTPUT);
    }
    for (int i = 0; i < hidden; i++) {
      add("hidden " + i, Variable.Role.LOCAL);
    }
  }

  private void add(String mark, Variable.Role role) {
    LogicType parameter = role == Variable.Role.LOCAL ? LINT : mark.endsWith("#") ? counted : BOOL;
    type.add(new Variable(mark.replace("#", ""), parameter, role, type.size(), false, false, "", Image.word(0),
        Position.NOWHERE));
  }

  private static String[] inputs(String... names) {
    return names;
  }

  private static String[] outputs(String... names) {
    return names;
  }

  public static Optional<StandardBlock> named(String name) {
    String key = name.toUpperCase(Locale.ROOT);
    return Arrays.stream(values()).filter(block -> block.name().equals(key)).findFirst();
  }

  public BlockType type() {
    return type;
  }

  /** The type that a counter counts in. */
  public Elementary counted() {
    return counted;
  }

  /** The block without its type suffix: CTU for CTU_DINT. */
  public String family() {
    String suffix = "_" + counted.name();
    return name().endsWith(suffix) ? name().substring(0, name().length() - suffix.length()) : name();
  }
}
