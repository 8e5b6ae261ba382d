package sweepbook.cli.live;

/**
 * What a person is to do now, in a word or two that are drawn large.
 *
 * @param word capital letters, digits and gaps
 * @param calls whether it is at the screen that something is to be done, and the person may stand at the machine
 */
public record Cue(String word, boolean calls) {
    static Cue of(String word) {
        return new Cue(word, false);
    }

    static Cue calling(String word) {
        return new Cue(word, true);
    }
}
