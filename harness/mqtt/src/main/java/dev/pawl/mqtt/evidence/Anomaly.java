package dev.pawl.mqtt.evidence;

/** Something that makes evidence doubtful, and what is done about it. */
public enum Anomaly {
  CONNECTION_GAP("connection lost", "all signals are unknown from there until their next value"),
  BENCH_GAP("connections that the bench side lost, and perhaps inputs with them",
      "all inputs are sent once more, and its outputs are unknown from there until their next value; findings of just"
          + " before rest on logic that"
          + " may have missed inputs: look at each"),
  RESUMED("connections lost in a step-by-step replay and taken up again",
      "the broker had kept what came meanwhile: nothing is missing"),
  SILENCE("lost connections that showed only by silence",
      "all signals are unknown from the last sign of life on, beyond which nothing had been judged"),
  OVERFLOW("messages dropped because they came faster than they were taken",
      "all signals are unknown from there until their next value"),
  BROKER_DROPPED("messages that the broker dropped, because one of its clients took them too slowly",
      "the connection is made anew, so that the gap has its place: all signals are unknown from there until their next"
          + " value"),
  DROPS_TOLD("messages that the broker says it dropped, of any of its clients",
      "whether this feed was among them cannot be told; compare with what the senders sent"),
  SEQUENCE_GAP("messages missing by their numbers",
      "what they said is not known: signals that have no new value since are unknown, look at the rules that use them"),
  RETAINED("values that the broker had kept, of unknown age", "taken as the state at the time they arrived"),
  DUPLICATE("messages that came twice", "the repetition is left out"),
  REORDERED("messages out of the order of their numbers",
      "put in order by their times where they state them, else taken as they came"),
  LATE("values that came later than the reorder window waits",
      "left out: the signal is unknown from the time up to which all was judged until its next value; live, rules over"
      + " it are at best undecided"),
  CLOCK_JUMP("times at which a sender's clock was found to be off its estimate",
      "the offset is estimated anew; signals whose times it states are unknown until their next value; live, rules"
          + " over them are at best undecided"),
  MALFORMED("payloads that cannot be read", "the signal is unknown from there until its next value"),
  STRANGER("messages on topics of outputs that the bench side does not count as its own",
      "taken as outputs, since nothing tells them apart: find out who else sends there"),
  INTERFERENCE("replays into which somebody else published, on topics of their inputs",
      "the replay ends there; findings of just before may rest on what was said there: look at each"),
  FOREIGN("messages on topics that no signal is bound to", "left out"),
  NOT_GOOD("values that their sender states to be bad, stale or null",
      "the signal is unknown from there until its next value"),
  HISTORICAL("values that their sender states to be old ones", "left out"),
  DEATH("nodes or devices reported dead", "their signals are unknown from there until their next birth"),
  STALE_DEATH("death messages of an earlier session", "left out"),
  BEFORE_BIRTH("data of nodes or devices whose birth was not seen", "left out; the signals stay unknown"),
  REBIRTH("births", "names, aliases and all values are taken anew");

  private final String label;
  private final String treatment;

  Anomaly(String label, String treatment) {
    this.label = label;
    this.treatment = treatment;
  }

  /**
   * Whether it shows that times which were judged were wrong, so that a rule over the signals it touched cannot be
   * called held.
   */
  public boolean misplacesTimes() {
    return this == LATE || this == CLOCK_JUMP;
  }

  /** What happened, in the plural. */
  public String label() {
    return label;
  }

  /** What is done about it. */
  public String treatment() {
    return treatment;
  }
}
