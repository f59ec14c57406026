package dev.pawl.bench.logic;

import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.code.ProgramCompiler;
import java.lang.management.ManagementFactory;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Prints how fast a ladder of 2,000 rungs runs beside the same logic as text, and how long reading it takes: {@code
 * java dev.pawl.bench.logic.DrawnTable [RUNS]}.
 */
public final class DrawnTable {

  private static final int RUNGS = 2_000;
  private static final int INPUTS = 64;
  private static final int SCANS = 20_000;
  private static final String RAIL = "<connectionPointIn><connection refLocalId=\"1\"/></connectionPointIn>";

  private final StringBuilder ladder = new StringBuilder();
  private final StringBuilder text = new StringBuilder();
  private final StringBuilder variables = new StringBuilder();
  private final StringBuilder declarations = new StringBuilder();
  private int next = 2;

  private DrawnTable() {}

  /** Prints the table. */
  public static void main(String[] arguments) throws ProgramCompiler.TooLarge {
    int runs = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 9;
    DrawnTable table = new DrawnTable();
    table.write();
    Source drawn = new Source("ladder.xml", table.xml());
    Source written = new Source("ladder.st", "PROGRAM Main\nVAR\n" + table.declarations + "END_VAR\n" + table.text
        + "END_PROGRAM\n");
    System.out.printf(Locale.ROOT, "%na ladder of %,d rungs, %,d bytes, beside the same logic in %,d lines of text%n",
        RUNGS,
        drawn.text().length(), written.text().lines().count());
    for (int i = 0; i < 4; i++) {
      System.out.printf(Locale.ROOT, "  read and checked, time no. %d              drawn %6.3f s   text %6.3f s%n", i
          + 1,
          seconds(() -> check(drawn)), seconds(() -> check(written)));
    }
    double ladder = Double.MAX_VALUE;
    double text = Double.MAX_VALUE;
    LogicProgram compiledLadder = LogicProgram.compile(check(drawn), LogicOptions.DEFAULT, new BitSet());
    LogicProgram compiledText = LogicProgram.compile(check(written), LogicOptions.DEFAULT, new BitSet());
    for (int run = 0; run < runs; run++) {
      long[] sums = new long[2];
      ladder = Math.min(ladder, seconds(() -> sums[0] = run(compiledLadder)));
      text = Math.min(text, seconds(() -> sums[1] = run(compiledText)));
      if (sums[0] != sums[1]) {
        throw new IllegalStateException("the two give different outputs: a time for a wrong answer is worth nothing");
      }
    }
    System.out.printf(Locale.ROOT, "  %,d scans, best of %d in turns, processor time%n", SCANS, runs);
    System.out.printf(Locale.ROOT, "  drawn %8.3f s %8.2f us/scan%n  text  %8.3f s %8.2f us/scan%n", ladder,
        ladder / SCANS * 1e6, text, text / SCANS * 1e6);
    System.out.printf(Locale.ROOT, "  times as long %6.2f   aim at most 1.3%n", ladder / text);
  }

  private static double seconds(Runnable work) {
    long start = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    work.run();
    return (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - start) / 1e9;
  }

  private static CheckedProgram check(Source source) {
    LogicLanguage.Compilation compilation = LogicLanguage.compile(List.of(source));
    return compilation.program().orElseThrow(
        () -> new IllegalArgumentException(new DiagnosticRenderer(List.of(source)).render(compilation.diagnostics())));
  }

  private static long run(LogicProgram program) {
    ScanMachine machine = new ScanMachine(program);
    SplittableRandom random = new SplittableRandom(3);
    int[] inputs = new int[INPUTS];
    int[] outputs = new int[RUNGS];
    for (int i = 0; i < INPUTS; i++) {
      inputs[i] = machine.address("in_" + i);
    }
    for (int i = 0; i < RUNGS; i++) {
      outputs[i] = machine.address("out_" + i);
    }
    long sum = 0;
    for (int scan = 0; scan < SCANS; scan++) {
      int changed = inputs[random.nextInt(INPUTS)];
      machine.setWordAt(changed, 1 - machine.wordAt(changed));
      if (machine.scan(scan * 10_000_000L).isPresent()) {
        throw new IllegalStateException("a run-time error");
      }
      sum = sum * 31 + machine.wordAt(outputs[scan % RUNGS]);
    }
    return sum;
  }

  // ---- the two forms

  private String xml() {
    return "<project xmlns=\"http://www.plcopen.org/xml/tc6_0201\">\n"
        + "<fileHeader companyName=\"\" productName=\"\" productVersion=\"1\" "
        + "creationDateTime=\"2026-01-01T00:00:00\"/>\n"
        + "<contentHeader name=\"drawn\"><coordinateInfo><fbd><scaling x=\"1\" y=\"1\"/></fbd>"
        + "<ld><scaling x=\"1\" y=\"1\"/></ld><sfc><scaling x=\"1\" y=\"1\"/></sfc></coordinateInfo>"
        + "</contentHeader>\n<types><dataTypes/><pous>\n"
        + "<pou name=\"Main\" pouType=\"program\"><interface><localVars>\n" + variables + "</localVars></interface>\n"
        + "<body><LD>\n<leftPowerRail localId=\"1\"><position x=\"0\" y=\"0\"/>"
        + "<connectionPointOut formalParameter=\"\"/>"
        + "</leftPowerRail>\n" + ladder + "</LD></body></pou></pous></types>\n"
        + "<instances><configurations/></instances></project>\n";
  }

  private void declare(String name, String type) {
    declarations.append("  ").append(name).append(" : ").append(type).append(";\n");
    variables.append("<variable name=\"").append(name).append("\"><type>").append(type.equals("BOOL") ? "<BOOL/>"
        : "<derived name=\"" + type + "\"/>").append("</type></variable>\n");
  }

  private void write() {
    SplittableRandom random = new SplittableRandom(1);
    for (int i = 0; i < INPUTS; i++) {
      declare("in_" + i, "BOOL");
    }
    for (int rung = 0; rung < RUNGS; rung++) {
      declare("out_" + rung, "BOOL");
      rung(rung, random);
    }
  }

  private String operand(int rung, SplittableRandom random) {
    return rung > 0 && random.nextInt(3) == 0 ? "out_" + random.nextInt(rung) : "in_" + random.nextInt(INPUTS);
  }

  /** Two contacts side by side, three in a row, every eighth with a timer, every tenth set and reset. */
  private void rung(int rung, SplittableRandom random) {
    String a = operand(rung, random);
    String b = operand(rung, random);
    String c = operand(rung, random);
    String d = operand(rung, random);
    String q = "out_" + rung;
    String sum = "(" + a + " OR " + b + ") AND NOT " + c + " AND " + d;
    int first = contact(a, false, RAIL, 10, 10 * rung);
    int second = contact(b, false, RAIL, 10, 10 * rung + 1);
    int third = contact(c, true, "<connectionPointIn><connection refLocalId=\"" + first
        + "\"/><connection refLocalId=\""
        + second + "\"/></connectionPointIn>", 20, 10 * rung);
    int fourth = contact(d, false, in(third, ""), 30, 10 * rung);
    if (rung % 8 == 0) {
      declare("t_" + rung, "TON");
      ladder.append("<inVariable localId=\"").append(next).append("\"><position x=\"5\" y=\"").append(10 * rung)
          .append("\"/><connectionPointOut/><expression>T#50ms</expression></inVariable>\n");
      int preset = next++;
      ladder.append("<block localId=\"").append(next).append("\" typeName=\"TON\" instanceName=\"t_").append(rung)
          .append("\"><position x=\"50\" y=\"").append(10 * rung).append("\"/><inputVariables>"
              + "<variable formalParameter=\"IN\">").append(in(fourth, "")).append("</variable>"
              + "<variable formalParameter=\"PT\">").append(in(preset, "")).append("</variable></inputVariables>"
              + "<inOutVariables/><outputVariables><variable formalParameter=\"Q\"><connectionPointOut/></variable>"
              + "</outputVariables></block>\n");
      coil(q, "", in(next++, "Q"), 10 * rung);
      text.append("  t_").append(rung).append("(IN := ").append(sum).append(", PT := T#50ms);\n  ").append(q)
          .append(" := t_").append(rung).append(".Q;\n");
    } else if (rung % 10 == 1) {
      coil(q, " storage=\"set\"", in(fourth, ""), 10 * rung);
      coil(q, " storage=\"reset\"", in(first, ""), 10 * rung + 2);
      text.append("  IF ").append(sum).append(" THEN ").append(q).append(" := TRUE; END_IF;\n  IF ").append(a)
          .append(" THEN ").append(q).append(" := FALSE; END_IF;\n");
    } else {
      coil(q, "", in(fourth, ""), 10 * rung);
      text.append("  ").append(q).append(" := ").append(sum).append(";\n");
    }
  }

  private static String in(int from, String output) {
    return "<connectionPointIn><connection refLocalId=\"" + from + "\"" + (output.isEmpty() ? ""
        : " formalParameter=\"" + output + "\"") + "/></connectionPointIn>";
  }

  private int contact(String variable, boolean negated, String in, int x, int y) {
    ladder.append("<contact localId=\"").append(next).append("\" negated=\"").append(negated)
        .append("\"><position x=\"")
        .append(x).append("\" y=\"").append(y).append("\"/>").append(in)
        .append("<connectionPointOut/><variable>").append(variable).append("</variable></contact>\n");
    return next++;
  }

  private void coil(String variable, String attributes, String in, int y) {
    ladder.append("<coil localId=\"").append(next++).append("\"").append(attributes).append("><position x=\"90\" y=\"")
        .append(y).append("\"/>").append(in).append("<connectionPointOut/><variable>").append(variable)
        .append("</variable></coil>\n");
  }
}
