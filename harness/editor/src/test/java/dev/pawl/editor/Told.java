package dev.pawl.editor;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.eclipse.lsp4j.Diagnostic;
import org.eclipse.lsp4j.MessageActionItem;
import org.eclipse.lsp4j.MessageParams;
import org.eclipse.lsp4j.PublishDiagnosticsParams;
import org.eclipse.lsp4j.ShowMessageRequestParams;
import org.eclipse.lsp4j.services.LanguageClient;

/** An editor that keeps what it is told. */
final class Told implements LanguageClient {

  private static final long PATIENCE_SECONDS = 60;

  private final Map<String, List<Diagnostic>> last = new HashMap<>();

  /** Waits until what was last told of a file is so. */
  synchronized List<Diagnostic> await(String uri, Predicate<List<Diagnostic>> so) throws InterruptedException {
    long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    while (!last.containsKey(uri) || !so.test(last.get(uri))) {
      if (System.nanoTime() > deadline) {
        throw new AssertionError("waited in vain; last told: " + last);
      }
      wait(100);
    }
    return last.get(uri);
  }

  @Override
  public synchronized void publishDiagnostics(PublishDiagnosticsParams told) {
    last.put(told.getUri(), told.getDiagnostics());
    notifyAll();
  }

  @Override
  public void telemetryEvent(Object event) {
    throw new AssertionError("an editor is told nothing of that kind");
  }

  @Override
  public void showMessage(MessageParams message) {
    throw new AssertionError(message.getMessage());
  }

  @Override
  public CompletableFuture<MessageActionItem> showMessageRequest(ShowMessageRequestParams request) {
    throw new AssertionError(request.getMessage());
  }

  @Override
  public void logMessage(MessageParams message) {
    throw new AssertionError(message.getMessage());
  }
}
