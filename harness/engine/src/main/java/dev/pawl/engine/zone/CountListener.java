package dev.pawl.engine.zone;

import dev.pawl.engine.TrackingFinding.Kind;

/** What has to know when a zone's count was certain, and when it is found wrong. */
public interface CountListener {

  /** The zone is no longer as full as it may be: while it was, none could have been overlooked. */
  void ceasesToBeFull();

  /** The zone is no longer empty: while it was, none could have been counted too many. */
  void ceasesToBeEmpty();

  /** The count cannot be right. */
  void isFoundWrong(Kind kind, long moment);
}
