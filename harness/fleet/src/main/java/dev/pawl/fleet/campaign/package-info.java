/** Runs of a ride with faults put into them, made by workers for a campaign that one process leads. */
package dev.pawl.fleet.campaign;
