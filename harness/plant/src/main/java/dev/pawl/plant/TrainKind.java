package dev.pawl.plant;

/**
 * What all trains of a ride have in common.
 *
 * @param length metres, nose to tail
 * @param mass kilograms, loaded
 * @param rollingResistance resisting force over weight across the track; steel on steel 0.001 to 0.002, polymer wheels
 *     0.01 or more
 * @param dragArea square metres: drag coefficient times frontal area
 * @param dog metres from the nose back to the dog that the lift chain and the anti-rollback take hold of
 */
public record TrainKind(double length, double mass, double rollingResistance, double dragArea, double dog) {

  public TrainKind {
    if (!(length > 0 && mass > 0 && rollingResistance >= 0 && dragArea >= 0 && dog >= 0 && dog <= length)) {
      throw new IllegalArgumentException("a train needs a positive length and mass, and its dog between nose and tail");
    }
  }
}
