package dev.pawl.plant.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.apache.commons.math3.ode.FirstOrderDifferentialEquations;
import org.apache.commons.math3.ode.nonstiff.DormandPrince853Integrator;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/**
 * The plant beside integrators that know nothing of it: one of a library where a train coasts, and one of the plainest
 * kind, with very small steps, for whole laps with chain, tyres and brakes. The forces are written down anew.
 */
class IndependentIntegratorTest {

  private static final double G = 9.81;
  private static final double[] PLACES = {0, 30, 60, 110, 114, 130, 170, 200, 230, 260, 300};
  private static final double[] HEIGHTS = {3, 3, 2.5, 27.5, 27.6, 26, 3, 12, 5, 14, 7};
  private static final double LENGTH = 400;
  private static final Train.Kind CARS = new Train.Kind(12, 7500, 0.012, 3.5, 6);
  private static final Course COURSE = new Course(List.of(new Course.Track("main", LENGTH, 0, PLACES, HEIGHTS)));

  private static double height(double place) {
    double along = place - Math.floor(place / LENGTH) * LENGTH;
    int last = PLACES.length - 1;
    for (int i = 0; i < last; i++) {
      if (along <= PLACES[i + 1]) {
        return HEIGHTS[i] + (HEIGHTS[i + 1] - HEIGHTS[i]) * (along - PLACES[i]) / (PLACES[i + 1] - PLACES[i]);
      }
    }
    return HEIGHTS[last] + (HEIGHTS[0] - HEIGHTS[last]) * (along - PLACES[last]) / (LENGTH - PLACES[last]);
  }

  private static double share(double nose, double from, double to) {
    double along = nose - Math.floor(nose / LENGTH) * LENGTH;
    double in = 0;
    for (int lap = -1; lap <= 1; lap++) {
      in += Math.max(0, Math.min(along + lap * LENGTH, to) - Math.max(along + lap * LENGTH - CARS.length(), from));
    }
    return in / CARS.length();
  }

  /** Gravity and air. */
  private static double pull(double nose, double speed) {
    double sine = (height(nose) - height(nose - CARS.length())) / CARS.length();
    return -G * sine - 1.2 * CARS.dragArea() / (2 * CARS.mass()) * speed * Math.abs(speed);
  }

  private static double rolling(double nose) {
    double sine = (height(nose) - height(nose - CARS.length())) / CARS.length();
    return G * CARS.rolling() * Math.sqrt(1 - sine * sine);
  }

  private static double eddy(double nose, double speed) {
    double ratio = speed / 7;
    return 2 * 2.5 * ratio / (1 + ratio * ratio) * share(nose, 270, 290);
  }

  @Test
  void aCoastingTrainAgreesWithAnIntegratorOfALibrary() {
    Plant plant = new Plant(COURSE, List.of(new Magnets(new Stretch(0, 270, 290), 2.5, 7, 0, true)),
        List.of(new Plant.Start("one", CARS, 0, 128, 3)));
    DormandPrince853Integrator library = new DormandPrince853Integrator(1e-9, 0.001, 1e-10, 1e-10);
    FirstOrderDifferentialEquations equations = new FirstOrderDifferentialEquations() {
      @Override
      public int getDimension() {
        return 2;
      }

      @Override
      public void computeDerivatives(double time, double[] state, double[] rates) {
        rates[0] = state[1];
        rates[1] = pull(state[0], state[1]) - rolling(state[0]) - eddy(state[0], state[1]);
      }
    };
    double[] state = {128, 3};
    for (int second = 1; second <= 22; second++) {
      library.integrate(equations, second - 1, state, second, state);
      plant.advance(second);
      Train train = plant.trains().get(0);
      assertThat(train.nose(second)).as("place after %d s", second).isCloseTo(state[0], within(1e-5));
      assertThat(train.speed(second)).as("speed after %d s", second).isCloseTo(state[1], within(1e-5));
    }
    assertThat(state[0]).isGreaterThan(300);
  }

  /** Tyres to the chain, over the crest, through magnets, trimmed, and again: three laps. */
  @Test
  void wholeLapsAgreeWithVerySmallSteps() {
    Lift lift = new Lift(new Stretch(0, 58, 113), new Lift.Data(1, true, 0, Double.POSITIVE_INFINITY, 0,
        new Stretch(0, 0, 0), 0));
    Tyres tyres = new Tyres(new Stretch(0, 380, 465), 2.4, 1.2);
    Plant plant = new Plant(COURSE, List.of(lift, tyres, new Magnets(new Stretch(0, 270, 290), 2.5, 7, 0, true),
        new Brake(new Stretch(0, 210, 230), 0.2, 9, 0, true), new Brake(new Stretch(0, 340, 375), 0.4, 3, 0, true)),
        List.of(new Plant.Start("one", CARS, 0, 20, 0)));
    plant.run(lift, true, 2.7);
    plant.drive(tyres, 1);

    double step = 2e-5;
    double nose = 20;
    double speed = 0;
    long steps = 0;
    double nextLook = 5;
    while (nose < 20 + 3 * LENGTH) {
      double acceleration = pull(nose, speed) - (speed > 0 ? rolling(nose) : 0) - eddy(nose, speed);
      double tyre = 1.2 * share(nose, 380, 465);
      acceleration += Math.max(-tyre, Math.min(tyre, (2.4 - speed) / step - acceleration));
      acceleration -= Math.min(0.2 * G * share(nose, 210, 230), Math.max(0, (speed - 9) / step + acceleration));
      acceleration -= Math.min(0.4 * G * share(nose, 340, 375), Math.max(0, (speed - 3) / step + acceleration));
      double next = speed + acceleration * step;
      double dog = nose - 6 - Math.floor((nose - 6) / LENGTH) * LENGTH;
      double chain = Math.min(2.7, (steps + 1) * step);
      next = dog >= 58 && dog < 113 ? Math.max(next, chain) : next;
      nose += (speed + next) / 2 * step;
      speed = next;
      steps++;
      double time = steps * step;
      if (time >= nextLook) {
        nextLook += 5;
        plant.advance(time);
        assertThat(plant.trains().get(0).nose(time)).as("place after %.0f s", time).isCloseTo(nose, within(0.02));
      }
    }
    plant.advance(steps * step);
    assertThat(plant.trains().get(0).nose(plant.now()) - 20).isCloseTo(3 * LENGTH, Percentage.withPercentage(0.01));
  }
}
