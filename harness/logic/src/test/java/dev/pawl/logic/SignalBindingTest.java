package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Diagnostic;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class SignalBindingTest {

  private static final String PROGRAM = """
      TYPE Mode : (off, manual); END_TYPE
      VAR_GLOBAL horn AT %QX0.0 : BOOL; gate AT %IX0.0 : BOOL; END_VAR
      PROGRAM Ride
      VAR_INPUT button : BOOL; speed : REAL; chosen : Mode; END_VAR
      VAR_OUTPUT lamp : BOOL; END_VAR
      VAR idle : TON; text : STRING; END_VAR
      lamp := button;
      END_PROGRAM
      """;

  private static List<String> bind(Books books, Map<String, String> stated) {
    return SignalBinding.bind(TestMachine.check(PROGRAM), books.book(), stated).diagnostics().stream()
        .map(SignalBindingTest::shown).toList();
  }

  private static String shown(Diagnostic diagnostic) {
    return (diagnostic.isError() ? "error " : "warning ") + diagnostic.position() + " " + diagnostic.message()
        + (diagnostic.hint().isEmpty() ? "" : " = " + diagnostic.hint());
  }

  private static Books complete() {
    return new Books().input("Button", Books.BOOL).input("SPEED", Books.MILES_PER_HOUR)
        .input("chosen", new ValueType.Enumeration("m", List.of("manual", "off")))
        .input("gate", Books.BOOL).output("horn", Books.BOOL).output("lamp", Books.BOOL);
  }

  @Test
  void namesMatchWithoutRegardToCase() {
    assertThat(bind(complete(), Map.of())).isEmpty();
  }

  @Test
  void otherPairsCanBeStated() {
    assertThat(bind(complete().internal("idle_time", Books.SECONDS), Map.of("idle_time", "Ride.idle.ET"))).isEmpty();
    assertThat(bind(complete().internal("idle_time", Books.SECONDS), Map.of("idle_time", "Ride.idel.ET")))
        .containsExactly( "error ride.rules:7:1 the program has no variable Ride.idel.ET for the signal idle_time");
  }

  @Test
  void signalsWithoutAVariableAndInputsWithoutASignalAreTold() {
    assertThat(bind(new Books().input("button", Books.BOOL).output("lampe", Books.BOOL).input("gate", Books.BOOL),
        Map.of()))
        .containsExactly("error ride.rules:2:1 the program has no variable lampe to give this signal = did you mean "
            + "lamp?",
            "warning test.st:4:26 no signal feeds the input speed; it keeps its first value",
            "warning test.st:4:40 no signal feeds the input chosen; it keeps its first value");
  }

  @Test
  void manyWithoutASignalOrAVariableAreToldAtOnce() {
    assertThat(bind(new Books().input("wind", Books.BOOL).input("rain", Books.BOOL).input("haze", Books.BOOL)
        .input("frost", Books.BOOL), Map.of())).containsExactly(
            "warning ride.rules:1:1 the program has no variables wind, rain, haze, frost; these signals are taken from "
                + "the trace",
            "warning test.st:4:11 no signal feeds the inputs button, speed, chosen, gate; each keeps its first value");
  }

  @Test
  void typesThatDoNotGoTogether() {
    assertThat(bind(new Books().input("button", Books.SECONDS).input("speed", Books.BOOL).input("chosen", Books.MODE)
        .output("text", Books.BOOL).output("horn", Books.MODE).input("gate", Books.BOOL), Map.of()))
        .filteredOn(line -> line.startsWith("error")).containsExactly(
            "error ride.rules:1:1 the signal button cannot be the variable Ride.button of type BOOL"
                + " = a number needs a REAL, LREAL or integer variable, a time also a TIME one",
            "error ride.rules:2:1 the signal speed cannot be the variable Ride.speed of type REAL = a bool signal "
                + "needs a "
            + "BOOL variable",
            "error ride.rules:3:1 the signal chosen cannot be the variable Ride.chosen of type Mode"
                + " = an enumeration needs an enumeration with the same names, or an integer variable that holds the "
                + "index",
            "error ride.rules:4:1 the signal text cannot be the variable Ride.text of type STRING = a bool signal "
                + "needs a "
            + "BOOL variable",
            "error ride.rules:5:1 the signal horn cannot be the variable horn of type BOOL"
                + " = an enumeration needs an enumeration with the same names, or an integer variable that holds the "
                + "index");
  }

  @Test
  void anInputSignalNeedsAnInputVariable() {
    assertThat(bind(complete().input("idle_q", Books.BOOL), Map.of("idle_q", "lamp"))).containsExactly(
        "error ride.rules:7:1 the signal idle_q is an input, but the program's Ride.lamp is none"
            + " = declare the variable in VAR_INPUT or at an address %I");
  }
}
