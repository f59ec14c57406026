/** Events in batches of primitives, and a way for them from one thread to another. Their order, and so every verdict, stays the same. */
package dev.pawl.engine.handover;
