package dev.pawl.plant.scenario;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.plant.SmallRide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScenarioLanguageTest {

  @Test
  void readsWhatIsThere() {
    Scenario scenario = SmallRide.scenario("""
        scenario "All of it"
        lasts 2 min
        seed 7
        starts "2026-05-16T09:00:00Z"
        at 12 s button = true
        at 13 s button = false for 500 ms
        at 14 s leave button
        at 1 s switch = auto
        at 15 s press button
        at 16 s speed_read = 3
        at 17 s speed_read = 3.6 km/h for 1 s
        every 10 s from 20 s to 50 s do push
        at 60 s fault stop weak 40 %
        at 61 s mend stop weak
        when 2nd rise of in_flag
          button = true
          after 1 s fault all stuck
        when each train back at 20.5 m
          press button
        when lamp = true and switch = auto for 3 s
          do push
        """);
    assertThat(scenario.title()).isEqualTo("All of it");
    assertThat(scenario.lasts()).isEqualTo(120);
    assertThat(scenario.seed()).isEqualTo(7);
    assertThat(scenario.script()).hasSize(8 + 4 + 2 - 1);
    assertThat(scenario.script()).extracting(Scenario.Timed::at).isSorted();
    assertThat(scenario.watches()).extracting(Scenario.Watch::nth).containsExactly(2, 0, 1);
    assertThat(scenario.script().get(6).doing()).isEqualTo(new Doing.Hold(6, 1, 1));
  }

  /** Line 2 is the wrong one each time. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "at 12 s buton = true | 2:9: the rules declare no signal 'buton' (did you mean button?)",
      "at 12 s button = 1 | 2:18: '1' is no value of 'button' (it is true or false)",
      "at 12 s switch = manual | 2:18: 'manual' is no value of 'switch' (it is one of off, auto)",
      "at 12 s speed_read = 3 kg | 2:22: '3' 'kg' is no value of 'speed_read' (it is a number of m/s)",
      "at 12 s lamp = true | 2:9: 'lamp' is declared as an output, but a scenario moves inputs (declare it as an input "
          + "in the rules, or name another)",
      "at 12 button = true | 2:4: '12' begins no time (write a number and a unit of time, such as 300 ms)",
      "at 12 s button = true for | 2:26: something is missing here (write a time, such as 300 ms)",
      "at 12 s button = true again | 2:23: 'again' is too much here (take it away)",
      "at 12 s press switch | 2:15: 'switch' is no bool, but here it has to be one (declare it as bool in the rules, "
          + "or name another)",
      "at 12 s do puhs | 2:12: the ride knows no act 'puhs' (did you mean push?)",
      "at 12 s dance wildly | 2:9: 'dance' is nothing that can be done (write SIGNAL = VALUE, press SIGNAL, leave "
          + "SIGNAL, do ACT, fault EQUIPMENT ..., mend EQUIPMENT ... or cut power for TIME ...)",
      "at 12 s | 2:8: something is missing here (write SIGNAL = VALUE, press SIGNAL, leave SIGNAL, do ACT, fault "
          + "EQUIPMENT ..., mend EQUIPMENT ... or cut power for TIME ...)",
      "at 12 s fault sotp weak 3 % | 2:15: nothing of the ride is called 'sotp' (did you mean stop?)",
      "at 12 s fault in_flag stuck | 2:23: 'in_flag' does not fail that way (it can be: missed, chattering, late, "
          + "silent)",
      "at 12 s fault in_flag missed 0 | 2:29: something is missing here (write missed 1)",
      "at 12 s fault in_flag missed 2 times | 2:32: 'times' is too much here (take it away)",
      "at 12 s fault in_flag late 3 m | 2:28: '3' begins no time (write a number and a unit of time, such as 300 ms)",
      "at 12 s fault in_flag chattering | 2:33: something is missing here (write chattering 300 ms)",
      "at 12 s fault in_flag swapped | 2:30: something is missing here (write swapped with SIGNAL)",
      "at 12 s fault in_flag swapped with run | 2:36: the wires of 'in_flag' and 'run' cannot be swapped (name two "
          + "inputs or two outputs of one type)",
      "at 12 s fault in_flag swapped with out_flga | 2:36: the rules declare no signal 'out_flga' (did you mean "
          + "out_flag?)",
      "at 12 s cut power for 5 s | 2:9: a power cut has its time, and the start after it is warm or cold (write cut "
          + "power for 5 s warm)",
      "at 12 s cut power for 0 s cold | 2:23: a power cut lasts some time (write cut power for 5 s warm)",
      "at 12 s fault run lost | 2:19: 'run' does not fail that way (it can be: silent, late)",
      "at 12 s fault speed_read late | 2:30: something is missing here (write late 500 ms)",
      "at 12 s fault stop parted | 2:20: 'stop' does not fail that way (it can be: stuck, weak, slow)",
      "at 12 s fault stop weak | 2:24: something is missing here (write weak 50 %)",
      "every 1 s from 9 s to 3 s do push | 2:7: this is done never, or more than 100000 times (the later time comes "
          + "second)",
      "every 1 s do push | 2:1: what is done again and again has its first and last time (write every 75 s from 60 s "
          + "to 3510 s do dispatch)",
      "when rise of lamp | 2:18: something is missing here (write what is done then, on indented lines under it)",
      "whne rise of lamp | 2:1: 'whne' begins no statement of a scenario (did you mean when?)",
      "lasts 5 s | 2:1: 'lasts' is said twice (keep one)",
      "use \"none.part\" | 2:5: \"none.part\" cannot be read (its path counts from the folder of small.scenario)",
      "starts \"today\" | 2:1: this is no time of the calendar (write starts \"2026-05-16T09:00:00Z\")",
      "seed one | 2:1: a seed is a whole number (write seed 1)"})
  void saysWhereAndWhatIsWrong(String line, String problem) {
    assertThat(SmallRide.problems("lasts 60 s\n" + line + "\n")).containsExactly("small.scenario:" + problem);
  }

  /** Line 19 of the ride each time. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "stop while button = true | 19:25: something is missing here (write until SIGNAL = VALUE within 4 s)",
      "stop while button = true until switch = auto | 19:45: something is missing here (write within 4 s)",
      "stop while button = true until switch = auto within 4 m | 19:53: '4' begins no time (write a number and a unit "
          + "of time, such as 300 ms)",
      "stop while button = true until switch = auto within 4 s soon | 19:57: 'soon' is too much here (take it away)",
      "stop when button = true | 19:5: something is missing here (write while SIGNAL = VALUE until SIGNAL = VALUE)",
      "boarding at 3 m | 19:1: people get on and off along a stretch (write boarding from 0 m to 28 m shut while "
          + "SIGNAL = VALUE)",
      "boarding from 3 s to 8 m shut while button = true | 19:15: '3' begins no place (write a number and a unit of "
          + "length, such as 12 m)",
      "boarding from 8 m to 3 m shut while button = true | 19:15: this is no stretch of the circuit (a stretch runs "
          + "forward along the track, and past the end of the lap counts on)",
      "boarding from 0 m to 3 m shut while buton = true | 19:37: the rules declare no signal 'buton' (did you mean "
          + "button?)",
      "boarding from 0 m to 3 m shut while button = true here | 19:51: 'here' is too much here (take it away)"})
  void saysWhatIsWrongWithWhatProtectsPeople(String line, String problem) {
    assertThat(SmallRide.deskProblems(SmallRide.RIDE + line + "\n")).containsExactly("small.ride:" + problem);
  }

  @Test
  void tellsTwoMistakesOfAKindTwiceAndThatAnEndIsMissing() {
    assertThat(SmallRide.problems("lasts 1 s\nat 1 s a = true\nat 1 s b = true\nwhen train at 900 m\n  press c\n"))
        .extracting(it -> it.substring(0, it.indexOf(": "))).containsExactly("small.scenario:2:8", "small.scenario:3:8",
            "small.scenario:4:15", "small.scenario:5:9");
    assertThat(SmallRide.problems("seed 1\n")).containsExactly(
        "small.scenario:1:1: this scenario has no end (add lasts 600 s)");
    assertThat(SmallRide.problems("lasts 1 s\nuse \"some.part\"\n")).containsExactly(
        "some.part:2:5: \"some.part\" is used already (use each file once)");
  }
}
