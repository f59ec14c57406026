package dev.pawl.editor;

import dev.pawl.grammar.source.Position;
import java.nio.file.Path;
import org.eclipse.lsp4j.Location;
import org.eclipse.lsp4j.Range;

/** Places as an editor counts them, from 0, and files as it names them. */
final class Spots {

  private Spots() {}

  static Range range(Position position) {
    int line = Math.max(0, position.line() - 1);
    int column = Math.max(0, position.column() - 1);
    return new Range(new org.eclipse.lsp4j.Position(line, column),
        new org.eclipse.lsp4j.Position(line, column + position.length()));
  }

  static Location location(Position position) {
    return new Location(uri(position.file()), range(position));
  }

  /** What the grammar calls the file that an editor names so; one that lies nowhere keeps its name. */
  static String name(String uri) {
    return uri.startsWith("file:") ? Path.of(java.net.URI.create(uri)).toString().replace('\\', '/') : uri;
  }

  static String uri(String name) {
    return name.contains(":") && !name.matches("[A-Za-z]:/.*") ? name : Path.of(name).toUri().toString();
  }

  static boolean holds(Position position, String file, org.eclipse.lsp4j.Position spot) {
    int column = spot.getCharacter() + 1;
    return position.file().equals(file) && position.line() == spot.getLine() + 1 && position.column() <= column
        && column <= position.column() + position.length();
  }
}
