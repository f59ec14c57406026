/**
 * One session in the many forms in which the systems of a site write it, each made here without any help of the
 * readers.
 */
package dev.pawl.trace.site;
