package dev.pawl.engine;

/**
 * How an engine works; none of it changes a verdict.
 *
 * @param share whether equal sub-expressions are computed once
 * @param findingsPerRule how many findings of each rule and kind are told to the listener; the rest are only counted
 * @param allZones whether zones that no rule rests on are counted too; else they have no outcome
 */
public record EngineOptions(boolean share, int findingsPerRule, boolean allZones) {

  public static final EngineOptions DEFAULT = new EngineOptions(true, 100);

  /** Options by which all zones are counted. */
  public EngineOptions(boolean share, int findingsPerRule) {
    this(share, findingsPerRule, true);
  }
}
