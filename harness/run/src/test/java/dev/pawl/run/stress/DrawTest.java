package dev.pawl.run.stress;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.plant.scenario.Act;
import dev.pawl.plant.scenario.Doing;
import dev.pawl.plant.scenario.Scenario;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class DrawTest {

  private static final double LASTS = 100;
  private static final double[] MOMENTS = {20, 60};
  private static final double FOR_EVER = Double.POSITIVE_INFINITY;
  private static final Candidate STICKS = new Candidate("sticks", "flag", false, new Candidate.Form.Held(0, 1),
      List.of(1.0, 2.0, 3.0), List.of(10.0, 20.0, 30.0));
  private static final Candidate CUT = new Candidate("cut", "controller", false, new Candidate.Form.Unpowered(true),
      List.of(0.0), List.of(5.0, 1.0));

  private static List<Injection> singles(int rounds) {
    Draw draw = new Draw(List.of(STICKS, CUT), 0, LASTS, MOMENTS, 7, 1, rounds * 4);
    List<Injection> singles = new ArrayList<>();
    for (int run = 1; run <= rounds * 2; run++) {
      assertThat(draw.trial(run).faults()).hasSize(1);
      singles.add(draw.trial(run).faults().get(0));
    }
    return singles;
  }

  /** Three amounts and three spans: nine runs of the fault alone have them all, and a fault that is no more or less has each span in turn. */
  @Test
  void aFaultAloneComesInAllItsAmountsAndSpans() {
    Set<String> sticks = new HashSet<>();
    List<Double> cuts = new ArrayList<>();
    for (Injection it : singles(9)) {
      if (it.candidate().equals(STICKS)) {
        sticks.add(it.amount() + " " + it.span());
      } else {
        cuts.add(it.span());
      }
    }
    assertThat(sticks).hasSize(9);
    assertThat(cuts).startsWith(5.0, 1.0, 5.0, 1.0);
  }

  /** Half of the instants lie at most half a second from where something happens, which two seconds of 100 do. */
  @Test
  void aboutEverySecondInstantIsBesideSomethingThatHappens() {
    List<Injection> all = singles(100);
    long beside = all.stream().filter(it -> Math.abs(it.at() - 20) <= 0.5 || Math.abs(it.at() - 60) <= 0.5).count();
    assertThat(beside).isBetween(all.size() * 4L / 10, all.size() * 6L / 10);
    assertThat(all).allMatch(it -> it.at() >= 0 && it.at() <= LASTS).anyMatch(it -> it.at() > 80);
  }

  /** A hand that is late keeps the others waiting; one that does not come is left out, and the others are as ever. */
  @Test
  void aHandIsLateOrDoesNotCome() {
    Act act = new Act("dispatch", List.of(new Act.Step(-8, 0.5, 4, 1), new Act.Step(0, 0.5, 5, 1)));
    Candidate clumsy = new Candidate("desk", "dispatch", true, new Candidate.Form.Clumsy(act, 4), List.of(1.0,
        FOR_EVER), List.of(FOR_EVER));
    assertThat(clumsy.timed(10, 1, FOR_EVER)).containsExactly(new Scenario.Timed(11, new Doing.Hold(4, 1, 8.5)),
        new Scenario.Timed(18, new Doing.Hold(5, 1, 1.5)));
    assertThat(clumsy.timed(10, FOR_EVER, FOR_EVER)).containsExactly(new Scenario.Timed(18, new Doing.Hold(5, 1, 0.5)));
  }
}
