package dev.pawl.plant.motion;

/** What the model cannot represent has come about; what follows would be made up. */
public final class BeyondModel extends RuntimeException {

  BeyondModel(String message) {
    super(message, null, false, false);
  }
}
