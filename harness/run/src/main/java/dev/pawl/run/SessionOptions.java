package dev.pawl.run;

/**
 * How a session judges.
 *
 * @param jobs how many threads may work
 * @param findings how many findings are kept of each rule and source; more than ten sources share what ten have, many
 *     rules in many sources what 1000 such pairs have, and the rest are counted
 * @param pictures whether findings get pictures, as the HTML report shows them
 * @param inputs whether the report names the files it rests on, with their SHA-256
 */
public record SessionOptions(int jobs, int findings, boolean pictures, boolean inputs) {

  /** A thread per processor, some findings of each rule, and all that a report has. */
  public static final SessionOptions DEFAULT =
      new SessionOptions(Runtime.getRuntime().availableProcessors(), 20, true, true);
}
