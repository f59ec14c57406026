package dev.pawl.logic.blocks;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import dev.pawl.logic.runtime.BlockOptions;
import dev.pawl.logic.runtime.BlockOptions.FirstFallingEdge;
import dev.pawl.logic.runtime.BlockOptions.OffDelayStart;
import dev.pawl.logic.runtime.BlockOptions.PulseEdge;
import dev.pawl.logic.runtime.BlockOptions.ZeroTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Counters, edges and bistables against their forms in IEC 61131-3, from memory. */
class CountersAndEdgesTest {

  /** The values of an output over scans, for inputs given as a string of bits per input. */
  private static String run(ScanMachine machine, String output, String[] names, String[] bits) {
    StringBuilder seen = new StringBuilder();
    for (int scan = 0; scan < bits[0].length(); scan++) {
      for (int i = 0; i < names.length; i++) {
        machine.set(names[i], bits[i].charAt(scan) == '1');
      }
      assertThat(machine.scan(scan * Timeline.SCAN)).isEmpty();
      seen.append(seen.isEmpty() ? "" : " ").append(machine.word(output));
    }
    return seen.toString();
  }

  private static String run(String declaration, String output, String[] names, String... bits) {
    StringBuilder inputs = new StringBuilder();
    StringBuilder call = new StringBuilder();
    for (String name : names) {
      inputs.append("v").append(name).append(" : BOOL; ");
      call.append(call.isEmpty() ? "" : ", ").append(name).append(" := v").append(name);
    }
    ScanMachine machine = TestMachine.of("PROGRAM P VAR_INPUT " + inputs + "END_VAR VAR b : " + declaration
        + "; END_VAR b(" + call + "); END_PROGRAM");
    String[] variables = new String[names.length];
    for (int i = 0; i < names.length; i++) {
      variables[i] = "v" + names[i];
    }
    return run(machine, output, variables, bits);
  }

  private static String[] names(String... names) {
    return names;
  }

  @Test
  void countUpResetsBeforeItCounts() {
    assertThat(run("CTU := (PV := 2)", "b.CV", names("CU", "R"), "0101101", "0000010")).isEqualTo("0 1 1 2 2 0 1");
    assertThat(run("CTU := (PV := 2)", "b.Q", names("CU", "R"), "0101101", "0000010")).isEqualTo("0 0 0 1 1 0 0");
  }

  @Test
  void countUpTakesAnInputThatIsTrueOnTheFirstCallForAnEdge() {
    assertThat(run("CTU := (PV := 1)", "b.CV", names("CU", "R"), "11", "00")).isEqualTo("1 1");
  }

  @Test
  void anEdgeDuringAResetIsLost() {
    assertThat(run("CTU := (PV := 9)", "b.CV", names("CU", "R"), "0111", "0100")).isEqualTo("0 0 0 0");
  }

  @Test
  void countUpIsDoneAtOnceWithAPresetOfZero() {
    assertThat(run("CTU := (PV := 0)", "b.Q", names("CU", "R"), "0", "0")).isEqualTo("1");
  }

  @Test
  void countUpStopsAtTheGreatestValueOfItsType() {
    assertThat(run("CTU := (CV := 32766)", "b.CV", names("CU", "R"), "10101", "00000"))
        .isEqualTo("32767 32767 32767 32767 32767");
    assertThat(run("CTU_ULINT := (CV := 16#FFFF_FFFF_FFFF_FFFE)", "b.CV", names("CU", "R"), "101", "000"))
        .isEqualTo("-1 -1 -1");
  }

  @Test
  void countDownLoadsBeforeItCounts() {
    assertThat(run("CTD := (PV := 2)", "b.CV", names("CD", "LD"), "0010101", "0100000")).isEqualTo("0 2 1 1 0 0 -1");
    assertThat(run("CTD := (PV := 2)", "b.Q", names("CD", "LD"), "0010101", "0100000")).isEqualTo("1 0 0 0 1 1 1");
  }

  @Test
  void countDownStopsAtTheLeastValueOfItsType() {
    assertThat(run("CTD := (CV := -32767)", "b.CV", names("CD", "LD"), "10101", "00000"))
        .isEqualTo("-32768 -32768 -32768 -32768 -32768");
    assertThat(run("CTD_UDINT := (CV := 1)", "b.CV", names("CD", "LD"), "101", "000")).isEqualTo("0 0 0");
  }

  @Test
  void countBothGivesResetPriorityOverLoadAndLoadOverCounting() {
    String[] inputs = names("CU", "CD", "R", "LD");
    assertThat(run("CTUD := (PV := 5)", "b.CV", inputs, "0101", "0000", "1000", "1100")).isEqualTo("0 5 5 6");
  }

  @Test
  void countBothDoesNotChangeOnTwoEdgesAtOnce() {
    String[] inputs = names("CU", "CD", "R", "LD");
    assertThat(run("CTUD := (PV := 5)", "b.CV", inputs, "0101", "0100", "0000", "0000")).isEqualTo("0 0 0 1");
    assertThat(run("CTUD := (PV := 1)", "b.QU", inputs, "0101", "0001", "0000", "0000")).isEqualTo("0 1 1 1");
    assertThat(run("CTUD := (PV := 1)", "b.QD", inputs, "0101", "0010", "0000", "0000")).isEqualTo("1 0 1 0");
  }

  @Test
  void risingEdgeLastsOneScan() {
    assertThat(run("R_TRIG", "b.Q", names("CLK"), "0110101")).isEqualTo("0 1 0 0 1 0 1");
    assertThat(run("R_TRIG", "b.Q", names("CLK"), "11")).isEqualTo("1 0");
  }

  @Test
  void fallingEdgeIsTrueOnAFirstScanWithClkFalseByTheStandardForm() {
    assertThat(run("F_TRIG", "b.Q", names("CLK"), "0011001")).isEqualTo("1 0 0 0 1 0 0");
    assertThat(run("F_TRIG", "b.Q", names("CLK"), "10")).isEqualTo("0 1");
  }

  @Test
  void fallingEdgeIsFalseOnAFirstScanWithClkFalseByOption() {
    BlockOptions options = new BlockOptions(ZeroTime.SAME_SCAN, PulseEdge.LOST, FirstFallingEdge.NO_PULSE,
        OffDelayStart.OFF);
    ScanMachine machine =
        TestMachine.of("PROGRAM P VAR_INPUT c : BOOL; END_VAR VAR b : F_TRIG; END_VAR b(CLK := c); END_PROGRAM",
        Timeline.with(options));
    assertThat(run(machine, "b.Q", names("c"), new String[] {"0011001"})).isEqualTo("0 0 0 0 1 0 0");
  }

  /** SR: Q1 := S1 OR (NOT R AND Q1), from memory. RS: Q1 := NOT R1 AND (S OR Q1). All eight states. */
  @ParameterizedTest
  @CsvSource({"0,0,0,0,0", "0,0,1,1,1", "0,1,0,0,0", "0,1,1,0,0", "1,0,0,1,1", "1,0,1,1,1", "1,1,0,1,0", "1,1,1,1,0"})
  void bistables(int set, int reset, int before, int setDominant, int resetDominant) {
    assertThat(run("SR := (Q1 := " + before + ")", "b.Q1", names("S1", "R"), "" + set, "" + reset))
        .isEqualTo("" + setDominant);
    assertThat(run("RS := (Q1 := " + before + ")", "b.Q1", names("S", "R1"), "" + set, "" + reset))
        .isEqualTo("" + resetDominant);
  }
}
