package dev.pawl.bench.peers;

import com.espertech.esper.common.client.EPCompiled;
import com.espertech.esper.common.client.configuration.Configuration;
import com.espertech.esper.compiler.client.CompilerArguments;
import com.espertech.esper.compiler.client.EPCompileException;
import com.espertech.esper.compiler.client.EPCompilerProvider;
import com.espertech.esper.runtime.client.EPDeployException;
import com.espertech.esper.runtime.client.EPDeployment;
import com.espertech.esper.runtime.client.EPEventService;
import com.espertech.esper.runtime.client.EPRuntime;
import com.espertech.esper.runtime.client.EPRuntimeProvider;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Locale;

/**
 * The two rules as statements of Esper, over events that are in memory before the clock starts. Time comes from the
 * events; every event of a flag in the trace is an edge, and the statements make use of it.
 *
 * <p>Arguments: the trace, its number of rows, how often to run.
 */
public final class EsperPeer {

  private static final String STATEMENTS = """
      create variable boolean occupied = false;
      create variable boolean running = false;
      on SignalEvent(signal = 'zone_1_flag', value = 1) set occupied = true;
      on SignalEvent(signal = 'zone_2_flag', value = 1) set occupied = false;
      on SignalEvent(signal = 'lift_run') as e set running = (e.value = 1);
      @name('stops') select time from SignalEvent(signal = 'estop_chain', value = 0);
      @name('late') select * from pattern [every SignalEvent(signal = 'estop_chain', value = 0, running)
          -> (timer:interval(501 milliseconds) and not SignalEvent(signal = 'lift_run', value = 0))];
      @name('dispatches') select time from SignalEvent(signal = 'gate_release', value = 1);
      @name('wrong') select time from SignalEvent(signal = 'gate_release', value = 1, occupied);
      """;

  private final EPEventService service;
  private final EPRuntime runtime;
  private long stops;
  private long late;
  private long dispatches;
  private long wrong;

  private EsperPeer() throws EPCompileException, EPDeployException {
    Configuration configuration = new Configuration();
    configuration.getCommon().addEventType(SignalEvent.class);
    configuration.getRuntime().getThreading().setInternalTimerEnabled(false);
    EPCompiled compiled = EPCompilerProvider.getCompiler().compile(STATEMENTS, new CompilerArguments(configuration));
    runtime = EPRuntimeProvider.getRuntime("peer", configuration);
    runtime.initialize();
    service = runtime.getEventService();
    service.advanceTime(0);
    EPDeployment deployment = runtime.getDeploymentService().deploy(compiled);
    listen(deployment, "stops", () -> stops++);
    listen(deployment, "late", () -> late++);
    listen(deployment, "dispatches", () -> dispatches++);
    listen(deployment, "wrong", () -> wrong++);
  }

  private void listen(EPDeployment deployment, String statement, Runnable count) {
    runtime.getDeploymentService().getStatement(deployment.getDeploymentId(), statement)
        .addListener((added, removed, source, by) -> count.run());
  }

  public static void main(String[] arguments) throws IOException, EPCompileException, EPDeployException {
    SignalEvent[] events = SignalEvent.read(Path.of(arguments[0]), Integer.parseInt(arguments[1]));
    PrintStream out = System.out;
    for (int run = 0; run < Integer.parseInt(arguments[2]); run++) {
      EsperPeer peer = new EsperPeer();
      long start = System.nanoTime();
      for (SignalEvent event : events) {
        peer.service.advanceTime(event.getTime());
        peer.service.sendEventBean(event, "SignalEvent");
      }
      double seconds = (System.nanoTime() - start) / 1e9;
      peer.runtime.destroy();
      out.printf(Locale.ROOT, "rows %d, stops %d, late %d, dispatches %d, wrong %d, seconds %.3f%n", events.length,
          peer.stops, peer.late, peer.dispatches, peer.wrong, seconds);
    }
  }
}
