package dev.pawl.mqtt.page;

import dev.pawl.engine.Caution;
import dev.pawl.engine.Verdict;
import dev.pawl.report.html.PageLook;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * The page's server, on loopback only. It takes nothing in but the request for one of its four things, one on each
 * connection. What a visitor can cost is bounded, so that nobody can make the watching program suffer: so many
 * connections, so long a request, so much time for either side to go on.
 */
public final class LivePage implements Closeable {

  private static final String PROTECTION = """
      Content-Security-Policy: default-src 'none'; script-src 'self'; style-src 'self'; \
      connect-src 'self'; base-uri 'none'; \
      form-action 'none'; frame-ancestors 'none'\r
      X-Content-Type-Options: nosniff\r
      Referrer-Policy: no-referrer\r
      Cache-Control: no-store\r
      Connection: close\r
      """;
  private static final Map<String, String> FILES =
      Map.of("/", "page.html", "/page.js", "page.js", "/page.css", "page.css");
  static final int MOST_VISITS = 48;
  /** How many the machine lets wait to be let in; whoever finds no room there tries again only after a second. */
  private static final int MOST_WAITING = 1024;
  private static final int MOST_READERS = 16;
  private static final int MOST_IGNORED = 65_536;
  private static final long HEARTBEAT_MILLISECONDS = 2000;
  private static final long PATIENCE = TimeUnit.SECONDS.toNanos(5);
  private static final long LOOK_MILLISECONDS = 500;

  private final ServerSocket server;
  private final LiveBoard board;
  private final Set<Visit> visits = ConcurrentHashMap.newKeySet();
  private final AtomicInteger readers = new AtomicInteger();

  /**
   * Starts the server.
   *
   * @param port TCP port; 0 for a free one
   * @throws IOException if the port is taken
   */
  public LivePage(int port, LiveBoard board) throws IOException {
    this.board = board;
    this.server = new ServerSocket(port, MOST_WAITING, InetAddress.getByName("127.0.0.1"));
    begin("pawl-page", this::accept);
    begin("pawl-page-limits", this::limit);
  }

  private static void begin(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
  }

  /** Where a browser finds the page. */
  public String address() {
    return "http://127.0.0.1:" + server.getLocalPort() + "/";
  }

  /** Connections that are open. */
  int visits() {
    return visits.size();
  }

  private void accept() {
    while (!server.isClosed()) {
      try {
        Visit visit = new Visit(server.accept());
        makeRoom();
        visits.add(visit);
        begin("pawl-page-visit", visit::serve);
      } catch (IOException e) {
        // Closed, or the visitor is gone already.
      }
    }
  }

  /** Cautions and the marks of verdicts stand where the page has their names in braces. */
  private static String filled(String text) {
    String said = text;
    for (Caution caution : Caution.values()) {
      said = said.replace("{" + caution.name() + "}", caution.text());
    }
    for (Verdict verdict : Verdict.values()) {
      said = said.replace("{" + verdict.name() + "}", PageLook.mark(verdict));
    }
    return said;
  }

  /**
   * Whoever has been here longest without being shown the ride goes: somebody who asks for something has it by then.
   */
  private void makeRoom() {
    if (visits.size() >= MOST_VISITS) {
      visits.stream().filter(visit -> !visit.streams).min(Comparator.comparingLong(visit -> visit.due))
          .ifPresent(Visit::end);
    }
  }

  /** Ends visits that do not go on. */
  private void limit() {
    while (!server.isClosed()) {
      visits.stream().filter(Visit::isOverdue).forEach(Visit::end);
      try {
        TimeUnit.MILLISECONDS.sleep(LOOK_MILLISECONDS);
      } catch (InterruptedException e) {
        return;
      }
    }
  }

  @Override
  public void close() {
    board.close();
    try {
      server.close();
    } catch (IOException e) {
      // Nobody is let in any more in any case.
    }
    visits.forEach(Visit::end);
  }

  /** One connection: a request and its answer. */
  private final class Visit {

    private final Socket socket;
    private volatile long due = System.nanoTime() + PATIENCE;
    private volatile boolean streams;

    Visit(Socket socket) {
      this.socket = socket;
    }

    boolean isOverdue() {
      return System.nanoTime() - due > 0;
    }

    void end() {
      visits.remove(this);
      try {
        socket.close();
      } catch (IOException e) {
        // It is of no use any more in any case.
      }
    }

    void serve() {
      try {
        Optional<PageRequest> request = PageRequest.read(socket.getInputStream());
        OutputStream out = socket.getOutputStream();
        if (request.isEmpty()) {
          head(out, "400 Bad Request", "text/plain", 0);
        } else if (!request.get().isFor(server.getLocalPort()) || !request.get().method().equals("GET")) {
          head(out, "404 Not Found", "text/plain", 0);
        } else if (request.get().target().equals("/events")) {
          events(out);
        } else {
          file(out, FILES.get(request.get().target()));
        }
        leave();
      } catch (IOException e) {
        // The visitor is gone.
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      } finally {
        end();
      }
    }

    /**
     * Waits for the visitor to close, for a while: an answer is lost where a connection is closed with something
     * unread.
     */
    private void leave() throws IOException {
      socket.shutdownOutput();
      InputStream in = socket.getInputStream();
      byte[] ignored = new byte[1024];
      int left = MOST_IGNORED;
      for (int count = 0; count >= 0 && left > 0; left -= count) {
        count = in.read(ignored);
      }
    }

    private void head(OutputStream out, String status, String type, int length) throws IOException {
      String stated = length < 0 ? "" : "Content-Length: " + length + "\r\n";
      write(out, "HTTP/1.1 " + status + "\r\nContent-Type: " + type + "; charset=utf-8\r\n" + PROTECTION + stated
          + "\r\n");
    }

    private void write(OutputStream out, String text) throws IOException {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    }

    private void file(OutputStream out, String name) throws IOException {
      if (name == null) {
        head(out, "404 Not Found", "text/plain", 0);
        return;
      }
      try (InputStream content = LivePage.class.getResourceAsStream(name)) {
        String text = new String(content.readAllBytes(), StandardCharsets.UTF_8);
        byte[] bytes = (name.endsWith(".css") ? PageLook.style() + text : filled(text))
            .getBytes(StandardCharsets.UTF_8);
        head(out, "200 OK", name.endsWith(".js") ? "text/javascript" : name.endsWith(".css") ? "text/css"
            : "text/html", bytes.length);
        out.write(bytes);
      }
    }

    private void events(OutputStream out) throws IOException, InterruptedException {
      try {
        if (readers.incrementAndGet() > MOST_READERS) {
          head(out, "503 Service Unavailable", "text/plain", 0);
          return;
        }
        streams = true;
        head(out, "200 OK", "text/event-stream", -1);
        stream(out);
      } finally {
        readers.decrementAndGet();
      }
    }

    /**
     * Sends pictures until the reader is gone; the last one again as a sign of life. JSON holds no line break, so it is
     * one line.
     */
    private void stream(OutputStream out) throws IOException, InterruptedException {
      long seen = -1;
      for (LiveBoard.Picture picture = board.after(seen, 1); picture != null; picture = board.after(seen,
          HEARTBEAT_MILLISECONDS)) {
        seen = picture.version();
        due = System.nanoTime() + PATIENCE;
        write(out, "data: " + picture.json() + "\n\n");
      }
    }
  }
}
