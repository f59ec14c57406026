package dev.pawl.plant.layout;

import dev.pawl.plant.ChainLift;
import dev.pawl.plant.FrictionBrake;
import dev.pawl.plant.Plant;
import dev.pawl.plant.Stretch;
import dev.pawl.plant.TrackProfile;
import dev.pawl.plant.Train;
import dev.pawl.plant.TrainKind;
import dev.pawl.plant.TyreDrive;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What a ride consists of: all of a plant but its state.
 *
 * @param track its heights
 * @param trainKind its trains
 * @param starts where each train's nose stands at first, metres along the track
 * @param brakes friction brakes by name
 * @param tyres tyre drives by name
 * @param lift its chain lift, if it has one
 * @param flags places of its flags by name, metres along the track
 */
public record RideLayout(TrackProfile track, TrainKind trainKind, List<Double> starts, Map<String, BrakePlan> brakes,
    Map<String, TyrePlan> tyres, Optional<LiftPlan> lift, Map<String, Double> flags) {

  /** A friction brake: friction coefficient, and seconds to open or close. */
  public record BrakePlan(Stretch stretch, double friction, double stroke) {}

  /** A tyre drive: metres per second and metres per second squared. */
  public record TyrePlan(Stretch stretch, double speed, double acceleration) {}

  /** A chain lift: metres from tooth to tooth of its anti-rollback, and metres per second squared of its drive. */
  public record LiftPlan(Stretch stretch, Stretch rack, double pitch, double ramp) {}

  /**
   * The ride built, with its trains at rest at their starts.
   *
   * @param brakes by name
   * @param tyres by name
   */
  public record Built(Plant plant, Map<String, FrictionBrake> brakes, Map<String, TyreDrive> tyres,
      Optional<ChainLift> lift) {}

  /** Builds the ride anew. */
  public Built build() {
    Map<String, FrictionBrake> builtBrakes = new LinkedHashMap<>();
    brakes.forEach((name, plan) -> builtBrakes.put(name, new FrictionBrake(plan.stretch(), plan.friction(),
        plan.stroke())));
    Map<String, TyreDrive> builtTyres = new LinkedHashMap<>();
    tyres.forEach((name, plan) -> builtTyres.put(name, new TyreDrive(plan.stretch(), plan.speed(),
        plan.acceleration())));
    Optional<ChainLift> builtLift = lift.map(plan -> new ChainLift(plan.stretch(), plan.rack(), plan.pitch(),
        plan.ramp()));
    List<Train> trains = starts.stream().map(nose -> new Train(trainKind, nose, 0)).toList();
    Plant plant = new Plant(track, trains, List.copyOf(builtBrakes.values()), List.copyOf(builtTyres.values()),
        builtLift);
    return new Built(plant, builtBrakes, builtTyres, builtLift);
  }
}
