package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Image;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * The row of slots that a program's variables are laid out in. Slot 0 stays free, so that no variable has address 0.
 */
final class MemoryLayout {

  /** Slots in all. */
  static final int LARGEST = 1 << 24;

  private final List<Piece> pieces = new ArrayList<>();
  private final BitSet retained = new BitSet();
  private int next = 1;

  private record Piece(int address, Image initial) {}

  /** Whether there is room for that many more slots. */
  boolean hasRoom(int size) {
    return size <= LARGEST - next;
  }

  /** Takes slots for a variable and says where they start. */
  int allocate(Image initial) {
    int address = next;
    pieces.add(new Piece(address, initial));
    next += initial.size();
    return address;
  }

  /** Gives a slot another first value. */
  void restate(int address, long word) {
    pieces.add(new Piece(address, Image.word(word)));
  }

  void retain(int address, int size) {
    retained.set(address, address + size);
  }

  BitSet retained() {
    return retained;
  }

  Image image() {
    Image image = Image.zeroes(next);
    pieces.forEach(piece -> image.put(piece.address(), piece.initial()));
    return image;
  }
}
