package selvage.survey;

/**
 * The customer's file, as a result names it.
 *
 * @param file the file's name without its folder
 * @param sha256 of its bytes, lower-case hex
 * @param pages how many pages it has
 */
public record JobFile(String file, String sha256, int pages) {}
