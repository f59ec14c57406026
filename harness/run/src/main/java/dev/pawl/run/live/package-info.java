/** Sessions on a live feed, which is judged as it comes or only recorded, and what a feed met, in words. */
package dev.pawl.run.live;
