/**
 * From messages to one stream of events in order of time, and from there into a recording and an engine at once. One
 * thread does all of it: {@link LiveFeed} takes from the queue, readers make readings, {@link Merger} puts them in
 * order.
 */
package dev.pawl.mqtt.feed;
