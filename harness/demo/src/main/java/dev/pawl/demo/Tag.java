package dev.pawl.demo;

import java.util.Locale;

/** A signal of the demo ride, in the order of its scan image. */
enum Tag {
  STATION_IN_FLAG, STATION_STOP_FLAG, STATION_OUT_FLAG, NEAR_FLAG, BASE_FLAG, BACKSTOP_LOW_FLAG, BACKSTOP_HIGH_FLAG,
      HOLD_FLAG,
  CREST_FLAG, MID_IN_FLAG, MID_OUT_FLAG, FINAL_IN_FLAG, FINAL_OUT_FLAG, READY_STOP_FLAG,

  ESTOP_CHAIN, RESET_BUTTON, LIFT_START_BUTTON, MODE(Kind.MODE), DISPATCH_LEFT, DISPATCH_RIGHT, GATES_CLOSED,
      RESTRAINTS_LOCKED,
  CHAIN_HEALTHY, BRAKE_AIR(Kind.NUMBER), LIFT_SPEED(Kind.NUMBER), LIFT_CURRENT(Kind.NUMBER),
  STATION_BRAKE_CLOSED, MID_BRAKE_CLOSED, FINAL_BRAKE_CLOSED, READY_BRAKE_CLOSED,

  LIFT_RUN, LIFT_REFERENCE(Kind.NUMBER), STATION_RELEASE, MID_BRAKE_OPEN, FINAL_BRAKE_OPEN, READY_BRAKE_OPEN,
  STATION_TYRES_RUN, APPROACH_TYRES_RUN, MID_TYRES_RUN, FINAL_TYRES_RUN, READY_TYRES_RUN,
  GATES_UNLOCK, MODE_SHOWN(Kind.MODE), STOP_LAMP, FAULT_LAMP, TRAIN_PARKED_LAMP;

  /** What a signal's values are. */
  enum Kind {
    SWITCH,
    MODE,
    NUMBER
  }

  private static final Tag[] ALL = values();

  private final Kind kind;

  Tag() {
    this(Kind.SWITCH);
  }

  Tag(Kind kind) {
    this.kind = kind;
  }

  /** All signals; not to be written to, and not copied at each call as {@code values()} is. */
  static Tag[] all() {
    return ALL;
  }

  Kind kind() {
    return kind;
  }

  /** The name that rules and traces have for it. */
  String label() {
    return name().toLowerCase(Locale.ROOT);
  }
}
