/**
 * A ride and its logic under faults: runs with faults drawn, judged and compared with what truly happened, and what
 * they
 * show made as small as it gets; and mistakes planted in the logic, run through the same.
 */
package dev.pawl.run.stress;
