/**
 * The pages for the operator's review and the supervisor's comparison, and the same over HTTP as
 * JSON. Takes requests from the shop's own network, hands them to {@code review}, {@code hotfolder}
 * and {@code ledger}, and renders what comes back. It holds no rule of the trade: what a patch or a
 * verdict is worth is decided below. Nothing in a request ever becomes a path of the file system.
 */
package selvage.web;
