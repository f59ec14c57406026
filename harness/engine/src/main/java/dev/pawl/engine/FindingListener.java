package dev.pawl.engine;

/** Is told of findings as they are decided. Called on the thread that brings the events. */
public interface FindingListener {

  /** Whom nothing interests. */
  FindingListener NONE = new FindingListener() {
    @Override
    public void finding(Finding finding) {}

    @Override
    public void tracking(TrackingFinding finding) {}

    @Override
    public void lateResponse(int rule, long trigger, long deadline, long time) {}
  };

  void finding(Finding finding);

  void tracking(TrackingFinding finding);

  /**
   * A response that had been found missing came after all.
   *
   * @param rule index of the rule
   * @param trigger nanoseconds, the trigger of the obligation it was missing from
   * @param deadline nanoseconds
   * @param time nanoseconds, when it came
   */
  void lateResponse(int rule, long trigger, long deadline, long time);
}
