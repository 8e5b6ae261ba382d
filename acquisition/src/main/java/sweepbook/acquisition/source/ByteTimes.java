package sweepbook.acquisition.source;

import java.util.ArrayDeque;

/** When each byte of a stream began to be sent, told from when the pieces of the stream arrived. */
final class ByteTimes {
    private final double byteTime_s;
    private final ArrayDeque<Piece> pieces = new ArrayDeque<>();
    private long end;

    private record Piece(long end, double arrival_s) {}

    ByteTimes(double byteTime_s) {
        this.byteTime_s = byteTime_s;
    }

    /** So many more bytes, the last of which had arrived by then. */
    void arrived(int bytes, double arrival_s) {
        end += bytes;
        pieces.add(new Piece(end, arrival_s));
    }

    /**
     * When the byte's first bit left: the arrival of its piece, less what it and the bytes behind it in the piece took
     * on the wire. Offsets asked for do not descend.
     */
    double sent_s(long offset) {
        Piece piece = pieceOf(offset);
        return piece.arrival_s() - (piece.end() - offset) * byteTime_s;
    }

    /** When the piece with that byte arrived. */
    double arrival_s(long offset) {
        return pieceOf(offset).arrival_s();
    }

    private Piece pieceOf(long offset) {
        while (pieces.size() > 1 && pieces.peek().end() <= offset) {
            pieces.remove();
        }
        return pieces.element();
    }
}
