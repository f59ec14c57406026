/** A described ride in closed loop: how much faster than real time, and where the time goes. */
package dev.pawl.bench.ride;
