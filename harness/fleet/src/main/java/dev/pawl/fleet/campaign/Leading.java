package dev.pawl.fleet.campaign;

import dev.pawl.fleet.work.Foreman;
import dev.pawl.fleet.work.Job;
import dev.pawl.fleet.work.Lines;
import dev.pawl.fleet.work.Task;
import dev.pawl.run.stress.Campaign;
import dev.pawl.run.stress.Maker;
import dev.pawl.run.stress.RunResult;
import dev.pawl.run.stress.Shown;
import dev.pawl.run.stress.Smallest;
import dev.pawl.run.stress.Tally;
import dev.pawl.run.stress.Team;
import dev.pawl.run.stress.Trial;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Future;
import java.util.function.Function;

/**
 * The campaign itself, on a thread of the process that coordinates the workers: the same code as in one process, of
 * which each run is a task. It needs no state of its own: what was done is in the lines.
 *
 * @param work how runs are made
 * @param folder of the lines
 */
record Leading(CampaignWork work, String folder) implements Foreman.Plan {

  @Override
  public boolean hears() {
    return true;
  }

  @Override
  public Foreman begin(Optional<byte[]> state, Runnable more) {
    Leader leader = new Leader(work.campaign(), lines(), more);
    leader.start();
    return leader;
  }

  private Lines lines() {
    try {
      return Lines.in(Job.lines(Path.of(folder)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What tasks of a campaign came to, asked for by its own code. */
  abstract static class Asking implements Team {

    private final Maker maker;
    private final int runs;
    private final int rules;
    private int smalls;

    Asking(Campaign campaign) {
      maker = campaign.maker();
      runs = campaign.runs();
      rules = campaign.subject().book().rules().size();
    }

    @Override
    public RunResult faultless() {
      return maker.faultless();
    }

    /** What a task comes to. */
    abstract <T> Future<T> ask(Task task, Function<String, T> read);

    @Override
    public List<Future<RunResult>> run(int first, List<Trial> trials) {
      List<Future<RunResult>> results = new ArrayList<>();
      for (Trial trial : trials) {
        results.add(ask(new Task(first + results.size(), CampaignWork.RUN + maker.words(trial)), line -> RunResult.of(
            line, rules).orElseThrow()));
      }
      return results;
    }

    @Override
    public Future<Optional<Smallest.Small>> small(Shown shown) {
      return ask(new Task(runs + smalls++, CampaignWork.SMALL + maker.words(shown)), maker::smallest);
    }
  }

  /** Gives the tasks out, and the campaign what they came to. */
  private static final class Leader extends Asking implements Foreman, Campaign.Listener {

    private final Campaign campaign;
    private final Lines done;
    private final Runnable more;
    private final Deque<Task> waiting = new ArrayDeque<>();
    private final Map<Integer, CompletableFuture<String>> asked = new HashMap<>();
    private boolean over;
    private boolean closed;
    private Optional<RuntimeException> trouble = Optional.empty();
    private final Thread thread = new Thread(this::lead, "pawl-campaign");

    Leader(Campaign campaign, Lines done, Runnable more) {
      super(campaign);
      this.campaign = campaign;
      this.done = done;
      this.more = more;
    }

    void start() {
      thread.setDaemon(true);
      thread.setContextClassLoader(Leading.class.getClassLoader());
      thread.start();
    }

    private void lead() {
      try {
        campaign.run(this, this);
      } catch (RuntimeException e) {
        synchronized (this) {
          trouble = Optional.of(e);
        }
      }
      synchronized (this) {
        over = true;
        if (closed) {
          return;
        }
      }
      more.run();
    }

    @Override
    <T> Future<T> ask(Task task, Function<String, T> read) {
      CompletableFuture<String> answer = new CompletableFuture<>();
      if (done.isDone(task.number())) {
        answer.complete(done.words(task.number()));
      } else {
        synchronized (this) {
          asked.put(task.number(), answer);
          waiting.add(task);
        }
        more.run();
      }
      return answer.thenApply(read);
    }

    @Override
    public synchronized Optional<Task> next() {
      trouble.ifPresent(problem -> {
        throw problem;
      });
      return Optional.ofNullable(waiting.poll());
    }

    @Override
    public synchronized boolean isDone() {
      return over && waiting.isEmpty();
    }

    @Override
    public synchronized void again(Task task) {
      waiting.addFirst(task);
    }

    @Override
    public void heard(int number, String words) {
      CompletableFuture<String> answer;
      synchronized (this) {
        answer = asked.remove(number);
      }
      if (answer != null) {
        answer.complete(words);
      }
    }

    @Override
    public boolean reached(int runs, Tally tally) {
      return isWanted();
    }

    @Override
    public boolean made(int hazards, int of) {
      return isWanted();
    }

    private synchronized boolean isWanted() {
      return !closed;
    }

    @Override
    public byte[] state() {
      return new byte[0];
    }

    @Override
    public void close() {
      synchronized (this) {
        closed = true;
      }
      thread.interrupt();
    }
  }
}
