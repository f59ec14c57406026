package dev.pawl.demo;

/**
 * The controller's own record of where trains are: a bit for each stretch, set by the flag at its entry, cleared behind
 * the train.
 */
final class Blocks {

  boolean station = true;
  boolean approach;
  boolean lift;
  boolean canyon;
  boolean mid;
  boolean helix;
  boolean last = true;
  boolean ready = true;

  void follow(ScanEdges edges) {
    station = next(station, edges.rises(Tag.STATION_IN_FLAG), edges.falls(Tag.STATION_OUT_FLAG));
    approach = next(approach, edges.rises(Tag.STATION_OUT_FLAG), edges.falls(Tag.BASE_FLAG));
    lift = next(lift, edges.rises(Tag.BASE_FLAG), edges.falls(Tag.CREST_FLAG));
    canyon = next(canyon, edges.rises(Tag.CREST_FLAG), edges.falls(Tag.MID_IN_FLAG));
    mid = next(mid, edges.rises(Tag.MID_IN_FLAG), edges.falls(Tag.MID_OUT_FLAG));
    helix = next(helix, edges.rises(Tag.MID_OUT_FLAG), edges.falls(Tag.FINAL_IN_FLAG));
    last = next(last, edges.rises(Tag.FINAL_IN_FLAG), edges.falls(Tag.FINAL_OUT_FLAG));
    ready = next(ready, edges.rises(Tag.FINAL_OUT_FLAG), edges.falls(Tag.STATION_IN_FLAG));
  }

  private static boolean next(boolean occupied, boolean enters, boolean leaves) {
    return enters || occupied && !leaves;
  }
}
