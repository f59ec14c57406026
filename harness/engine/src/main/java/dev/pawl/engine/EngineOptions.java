package dev.pawl.engine;

/**
 * How an engine works; none of it changes a verdict.
 *
 * @param share whether equal sub-expressions are computed once
 * @param findingsPerRule how many findings of each rule and kind are told to the listener; the rest are only counted
 */
public record EngineOptions(boolean share, int findingsPerRule) {

  public static final EngineOptions DEFAULT = new EngineOptions(true, 100);
}
