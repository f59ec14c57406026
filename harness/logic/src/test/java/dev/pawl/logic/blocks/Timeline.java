package dev.pawl.logic.blocks;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import dev.pawl.logic.code.CodeOptions;
import dev.pawl.logic.runtime.BlockOptions;

/**
 * One instance of a function block, called once every 10 ms with inputs and compared with outputs that a test writes
 * down as rows.
 */
final class Timeline {

  static final long SCAN = 10_000_000L;

  private final ScanMachine machine;
  private final String output;
  private long now;

  private Timeline(ScanMachine machine, String output) {
    this.machine = machine;
    this.output = output;
  }

  /** A timer with the given preset. */
  static Timeline timer(String block, String preset, BlockOptions options) {
    return new Timeline(TestMachine.of("PROGRAM P VAR_INPUT input : BOOL; pt : TIME := " + preset + "; END_VAR VAR b : "
        + block + "; END_VAR b(IN := input, PT := pt); END_PROGRAM", with(options)), "b.Q");
  }

  static Timeline timer(String block, String preset) {
    return timer(block, preset, BlockOptions.DEFAULT);
  }

  static LogicOptions with(BlockOptions options) {
    return new LogicOptions(CodeOptions.DEFAULT, options, 1000);
  }

  Timeline preset(long nanoseconds) {
    machine.set("pt", nanoseconds);
    return this;
  }

  /**
   * Scans on: a character per scan, {@code 1} for TRUE and {@code 0} for FALSE.
   *
   * @param elapsed expected ET per scan in ms, separated by spaces
   */
  Timeline scans(String inputs, String outputs, String elapsed) {
    StringBuilder seen = new StringBuilder();
    StringBuilder times = new StringBuilder();
    for (char input : inputs.toCharArray()) {
      machine.set("input", input == '1');
      assertThat(machine.scan(now)).isEmpty();
      now += SCAN;
      seen.append(machine.truth(output) ? '1' : '0');
      times.append(times.isEmpty() ? "" : " ").append(machine.word("b.ET") / 1_000_000);
    }
    assertThat(seen + " | " + times).isEqualTo(outputs + " | " + elapsed);
    return this;
  }
}
