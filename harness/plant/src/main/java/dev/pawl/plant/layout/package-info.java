/** A ride's track, trains, equipment and flags as a text file describes them, and a plant built from that. */
package dev.pawl.plant.layout;
