/** What a broker and the harness behind it take: rates, losses, time from event to verdict, beside the bare library. */
package dev.pawl.bench.mqtt;
