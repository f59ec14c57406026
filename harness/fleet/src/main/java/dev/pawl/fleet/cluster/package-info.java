/** Where tasks are done: in this process, in worker processes on loopback, or on a cluster of Flink that is there. */
package dev.pawl.fleet.cluster;
