package dev.pawl.engine;

/**
 * How an engine works, which changes no verdict, and how the trace's signals were looked at.
 *
 * @param share whether equal sub-expressions are computed once
 * @param findingsPerRule how many findings of each rule and kind are told to the listener; the rest are only counted
 * @param sampling how often each signal was looked at
 */
public record EngineOptions(boolean share, int findingsPerRule, Sampling sampling) {

  public static final EngineOptions DEFAULT = new EngineOptions(true, 100);

  /** Those for a trace whose signals were logged when they changed. */
  public EngineOptions(boolean share, int findingsPerRule) {
    this(share, findingsPerRule, Sampling.NONE);
  }

  /** The same for signals looked at in another way. */
  public EngineOptions with(Sampling other) {
    return new EngineOptions(share, findingsPerRule, other);
  }
}
