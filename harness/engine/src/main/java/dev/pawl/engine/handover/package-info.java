/** Events from one thread to another, in batches of primitive arrays. Their order, and so every verdict, is the same as on one thread. */
package dev.pawl.engine.handover;
