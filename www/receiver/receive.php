<?php
// Takes an enquiry where there is no service of its own: one plain form post, made into a mail with its attachments.
//
// Copy this one file to an ordinary web host, set the few lines below, and name its address in the form:
//   <presurvey-form submit="/receive.php" submit-as="multipart" …>
// It needs PHP 8.1 or newer and nothing else. Of fields with one name PHP keeps the last alone, unless the name ends in `[]`: a form of your
// own says `hazard[]` and `photo[]`. Until it is set up it takes nothing and says so, to a browser that opens its address too. It keeps
// nothing, unless `folder` says where.

declare(strict_types=1);

/** What you set. A file `receive-settings.php` beside this one that returns such a list goes before it. */
$settings = [
    // Where enquiries go, and from which address of your own domain they are sent. These two are invented: nothing is taken until they are
    // yours.
    'to' => 'enquiries@installer.invalid',
    'from' => 'website@installer.invalid',
    // A folder that is not reachable from the web: then nothing is mailed, each enquiry is a folder in it.
    'folder' => null,
    // How many photos, and how many bytes of one and of all. Your host has limits of its own (`upload_max_filesize`,
    // `max_file_uploads`, `post_max_size`): they should be higher.
    'photos' => 12,
    'photo_bytes' => 6_000_000,
    'all_bytes' => 20_000_000,
    // Other websites of yours whose form may post here, such as 'https://www.installer.invalid'. This one may, with and without `www.`.
    'origins' => [],
];
$beside = __DIR__ . '/receive-settings.php';
if (is_file($beside)) {
    $settings = array_merge($settings, (array) require $beside);
}

/** Whether a browser asks that shows the answer itself. */
function is_for_people(): bool
{
    return str_contains($_SERVER['HTTP_ACCEPT'] ?? '', 'text/html');
}

/** Whether an origin is this website, with or without `www.`. */
function is_own(string $origin): bool
{
    $bare = fn (string $host) => preg_replace('/^www\./', '', strtolower($host));
    $host = preg_replace('#^https?://#', '', $origin);
    return $origin !== '' && $bare($host) === $bare($_SERVER['HTTP_HOST'] ?? '');
}

/** Answers and ends: JSON for a script, a small page for a browser that posted a plain form. */
function answer(int $status, string $title, array $more = []): never
{
    http_response_code($status);
    header('X-Content-Type-Options: nosniff');
    header('Cache-Control: no-store');
    header("Content-Security-Policy: default-src 'none'");
    if (is_for_people()) {
        header('Content-Type: text/html; charset=utf-8');
        $shown = htmlspecialchars($title, ENT_QUOTES | ENT_SUBSTITUTE, 'UTF-8');
        echo "<!doctype html>\n<html lang=\"en-GB\">\n<meta charset=\"utf-8\">\n";
        echo "<meta name=\"viewport\" content=\"width=device-width\">\n<title>$shown</title>\n<h1>$shown</h1>\n";
        if (isset($more['reference'])) {
            echo '<p>Your reference: ' . htmlspecialchars($more['reference'], ENT_QUOTES, 'UTF-8') . "</p>\n";
        } elseif ($status !== 405) {
            echo "<p>Go back with your browser: what you typed is still there. Or ring.</p>\n";
        }
    } else {
        header('Content-Type: application/json');
        echo json_encode($status < 300 ? $more : ['error' => $title] + $more, JSON_UNESCAPED_UNICODE | JSON_INVALID_UTF8_SUBSTITUTE);
    }
    exit;
}

/** Refuses, naming the field and what it may be. */
function refuse(string $field, string $why, int $status = 422): never
{
    answer($status, "`$field`: $why", ['fields' => [['path' => $field, 'message' => $why]]]);
}

/** One field of text. */
function field(string $name, int $most, bool $lines = false): string
{
    $text = $_POST[$name] ?? '';
    if (!is_string($text) || !is_utf8($text)) {
        refuse($name, 'it may be text in UTF-8');
    }
    $text = trim(str_replace(["\r\n", "\r"], "\n", $text));
    if (strlen($text) > $most) {
        refuse($name, "it may have at most $most bytes");
    }
    // Nothing but a line break may steer what shows the text; a single line may not even hold that.
    $forbidden = $lines ? '/[^\P{C}\n\t\x{200c}\x{200d}]/u' : '/[^\P{C}\x{200c}\x{200d}]/u';
    if (preg_match($forbidden, $text) !== 0) {
        refuse($name, $lines ? 'it may be plain text' : 'it may be one line of plain text');
    }
    return $text;
}

/** Whether it is UTF-8, without asking for an extension that a host may lack. */
function is_utf8(string $text): bool
{
    return preg_match('//u', $text) === 1;
}

/** The files sent under a name, as a list; a browser sends an empty one where none was chosen. */
function files(string $name): array
{
    $sent = $_FILES[$name] ?? null;
    if ($sent === null) {
        return [];
    }
    $list = [];
    foreach ((array) $sent['error'] as $at => $error) {
        if ($error === UPLOAD_ERR_NO_FILE) {
            continue;
        }
        if ($error === UPLOAD_ERR_INI_SIZE || $error === UPLOAD_ERR_FORM_SIZE) {
            $most = ini_get('upload_max_filesize');
            refuse($name, "a file is larger than the $most that this website takes; leave it out, or ring", 413);
        }
        if ($error !== UPLOAD_ERR_OK) {
            refuse($name, 'a file did not arrive whole; send it again', 400);
        }
        $bytes = file_get_contents(((array) $sent['tmp_name'])[$at]);
        if ($bytes === false) {
            answer(500, 'Something is wrong at our end and nothing was kept; try again in a while.');
        }
        if ($bytes !== '') {
            $list[] = $bytes;
        }
    }
    return $list;
}

/** What is missing before anything can be taken; null if it is set up. */
function missing(array $settings): ?string
{
    if ($settings['folder'] !== null) {
        $folder = $settings['folder'];
        $ready = is_string($folder) && is_dir($folder) && is_writable($folder);
        return $ready ? null : '`folder` is to be a folder that exists and that PHP may write into';
    }
    foreach (['to', 'from'] as $name) {
        $address = $settings[$name];
        if (!is_string($address) || filter_var($address, FILTER_VALIDATE_EMAIL) === false || str_ends_with($address, '.invalid')) {
            return "`$name` is to be a mail address of yours";
        }
    }
    return function_exists('mail') ? null : 'this host lets PHP send no mail; `folder` can keep enquiries instead';
}

/**
 * A JPEG picture without what a camera or a program wrote into it (EXIF with the place, XMP, IPTC, comments, thumbnails, further pictures
 * after its end); of EXIF only the way up stays. Null if it is not a whole JPEG picture. The pixels are not touched. Segments by ITU-T T.81,
 * annex B.
 */
function cleaned_jpeg(string $bytes): ?string
{
    $size = @getimagesizefromstring($bytes);
    if (!str_starts_with($bytes, "\xff\xd8\xff") || $size === false || $size[2] !== IMAGETYPE_JPEG) {
        return null;
    }
    $kept = '';
    $jfif = '';
    $upright = 1;
    $end = strlen($bytes);
    $at = 2;
    while ($at + 4 <= $end || substr($bytes, $at, 2) === "\xff\xd9") {
        if ($bytes[$at] !== "\xff") {
            return null;
        }
        $marker = ord($bytes[$at + 1]);
        if ($marker === 0xff) {
            $at++; // any number of fill bytes may stand before a marker
            continue;
        }
        if ($marker === 0xd9) {
            return "\xff\xd8" . ($upright === 1 ? $jfif : orientation_segment($upright)) . $kept . "\xff\xd9";
        }
        $length = unpack('n', $bytes, $at + 2)[1];
        if ($length < 2 || $at + 2 + $length > $end) {
            return null;
        }
        $inside = substr($bytes, $at + 4, $length - 2);
        if ($marker === 0xe1 && str_starts_with($inside, "Exif\0\0")) {
            $upright = orientation(substr($inside, 6));
        }
        if ($marker === 0xe0 && str_starts_with($inside, "JFIF\0") && strlen($inside) === 14 && $at === 2) {
            $jfif = substr($bytes, $at, 2 + $length); // without a thumbnail
        }
        // Of an application's segments those alone that a decoder needs: the colour profile and the colour transform.
        $needed = ($marker === 0xe2 && str_starts_with($inside, "ICC_PROFILE\0")) || ($marker === 0xee && str_starts_with($inside, 'Adobe'));
        if ($needed || $marker < 0xe0) {
            $kept .= substr($bytes, $at, 2 + $length);
        }
        $at += 2 + $length;
        if ($marker === 0xda) {
            // Coded data up to the next marker; 0xff00 is data, and restart markers belong to it.
            if (preg_match('/\xff(?![\x00\xff\xd0-\xd7])/s', $bytes, $found, PREG_OFFSET_CAPTURE, $at) !== 1) {
                return null;
            }
            $kept .= substr($bytes, $at, $found[0][1] - $at);
            $at = $found[0][1];
        }
    }
    return null;
}

/** The way up from the first directory of EXIF (tag 0x0112 of TIFF 6.0), from 1 to 8; 1 if it is not said. */
function orientation(string $tiff): int
{
    $intel = str_starts_with($tiff, 'II');
    $number = fn (string $format, int $at, int $bytes) => strlen($tiff) >= $at + $bytes ? unpack($format, $tiff, $at)[1] : 0;
    $two = fn (int $at) => $number($intel ? 'v' : 'n', $at, 2);
    $four = fn (int $at) => $number($intel ? 'V' : 'N', $at, 4);
    $directory = $four(4);
    for ($entry = 0; $entry < $two($directory); $entry++) {
        $at = $directory + 2 + 12 * $entry;
        if ($two($at) === 0x0112) {
            $way = $two($at + 8);
            return $way >= 1 && $way <= 8 ? $way : 1;
        }
    }
    return 1;
}

/** EXIF that holds the way up and nothing else. */
function orientation_segment(int $way): string
{
    $tiff = "MM\0\x2a" . pack('N', 8) . pack('n', 1) . pack('nnNnn', 0x0112, 3, 1, $way, 0) . pack('N', 0);
    $inside = "Exif\0\0" . $tiff;
    return "\xff\xe1" . pack('n', strlen($inside) + 2) . $inside;
}

/** Fields of a form's own, as lines: whatever has no control characters in it. */
function other_fields(): array
{
    $known = ['name', 'telephone', 'email', 'reach', 'when', 'note', 'address', 'supply_number', 'postcode', 'summary', 'hazard',
        'hazard-when', 'hazard-place', 'client_key', 'consent', 'offers', 'copy', 'language', 'seconds'];
    $lines = [];
    foreach (array_diff_key($_POST, array_flip($known)) as $name => $value) {
        $text = implode(', ', array_filter((array) $value, 'is_string'));
        $line = "$name: " . preg_replace('/\s+/', ' ', trim($text));
        // A submit button, a token of the site's and an empty trap for robots are nothing that was said.
        if (trim($text) !== '' && $name !== 'submit' && !str_starts_with((string) $name, '_') && is_utf8($line) && preg_match('/\p{C}/u', $line) === 0 && count($lines) < 40) {
            $lines[] = substr($line, 0, 2000);
        }
    }
    return $lines;
}

/**
 * Keeps files in a folder named by the reference, once. What came under the same reference and is not the same, because something was
 * added before it was sent again, is kept beside it as `REFERENCE-2` and so on.
 */
function keep(string $folder, string $reference, array $files): void
{
    // Written under another name first: a folder that has its own name is whole.
    $draft = "$folder/.arriving-" . bin2hex(random_bytes(8));
    $written = mkdir($draft, 0700);
    foreach ($files as $file => $bytes) {
        $written = $written && file_put_contents("$draft/$file", $bytes) === strlen($bytes);
    }
    for ($number = 1; $written && $number <= 100; $number++) {
        $whole = "$folder/$reference" . ($number === 1 ? '' : "-$number");
        // A folder that is not empty is not replaced.
        if (!is_dir($whole) && @rename($draft, $whole)) {
            return;
        }
        if (has_files($whole, $files)) {
            empty_folder($draft);
            return;
        }
    }
    empty_folder($draft);
    answer(500, 'Something is wrong at our end and nothing was kept; try again in a while.');
}

/** Whether a folder has these files and no others. */
function has_files(string $folder, array $files): bool
{
    $names = array_values(array_diff((array) @scandir($folder), ['.', '..', false]));
    $wanted = array_keys($files);
    sort($wanted);
    sort($names);
    $same = fn (string $file) => file_get_contents("$folder/$file") === $files[$file];
    return $names === $wanted && array_filter($wanted, $same) === $wanted;
}

/** Removes a folder that was not finished. */
function empty_folder(string $folder): void
{
    array_map('unlink', (array) glob("$folder/*"));
    @rmdir($folder);
}

/** A line of a mail's head: only what can't end it. */
function head(string $name, string $value): string
{
    if (preg_match('/[\x00-\x1f\x7f]/', $value) === 1) {
        answer(500, 'The settings of this website hold a line that a mail may not have; nothing was sent.');
    }
    return "$name: $value";
}

$method = $_SERVER['REQUEST_METHOD'] ?? 'GET';
$origin = $_SERVER['HTTP_ORIGIN'] ?? '';
$known = is_own($origin) || in_array($origin, $settings['origins'], true);
$asks = preg_match('#^https?://[^\s/]+$#D', $origin) === 1;
if ($asks) {
    // A refusal may be read by the page that asks, so that it can say why nothing arrives.
    header("Access-Control-Allow-Origin: $origin");
    header('Vary: Origin');
}
if ($method === 'OPTIONS') {
    header('Access-Control-Allow-Methods: POST');
    header('Access-Control-Allow-Headers: Content-Type');
    http_response_code(204);
    exit;
}
$missing = missing($settings);
if ($missing !== null) {
    // A fault of this website, not of what was sent: the form keeps it and tries again.
    answer(503, "This website takes no enquiries yet, and nothing was kept. For whoever looks after it: in receive.php, $missing.");
}
if ($method !== 'POST') {
    header('Allow: POST');
    answer(405, 'This address takes enquiries from the form alone.');
}
// A script of another website could not read the answer, and would send again and again what has arrived.
if ($asks && !$known && !is_for_people()) {
    answer(403, "This website takes no enquiries from $origin. For whoever looks after it: name it in `origins` of receive.php.");
}
if ($_POST === [] && $_FILES === []) {
    // PHP throws away what is over its own `post_max_size`, and what is no form.
    $length = (int) ($_SERVER['CONTENT_LENGTH'] ?? 0);
    answer($length > 0 ? 413 : 400, $length > 0 ? 'This is larger than this website takes, or no form.' : 'Nothing was sent.');
}

$name = field('name', 400);
$telephone = field('telephone', 160);
$email = field('email', 254);
$when = field('when', 800);
$note = field('note', 8000, lines: true);
$address = field('address', 1600, lines: true);
$supply = field('supply_number', 800);
$postcode = field('postcode', 40);
$summary = field('summary', 60_000, lines: true);
$noticed = field('hazard-when', 40);
$place = field('hazard-place', 40);
$reach = field('reach', 40);
$key = field('client_key', 32);
// Without `[]` the first of two signs would be gone without a word, and a photo likewise.
$hazards = $_POST['hazard'] ?? [];
if (!is_array($hazards)) {
    refuse('hazard', 'the form is to name this field `hazard[]`: of several with one name PHP keeps the last alone');
}
if (isset($_FILES['photo']) && !is_array($_FILES['photo']['error']) && $_FILES['photo']['error'] !== UPLOAD_ERR_NO_FILE) {
    refuse('photo', 'the form is to name this field `photo[]`: of several with one name PHP keeps the last alone');
}
foreach ($hazards as $hazard) {
    if (!is_string($hazard) || preg_match('/^[a-z-]{1,40}$/D', $hazard) !== 1) {
        refuse('hazard', 'it may be words such as buzzing, or none');
    }
}
if ($name === '') {
    refuse('name', 'it may be a name');
}
if ($telephone === '' && $email === '') {
    refuse('telephone', 'it may be a telephone number, or leave it and give an e-mail address');
}
if ($email !== '' && filter_var($email, FILTER_VALIDATE_EMAIL) === false) {
    refuse('email', 'it may be an e-mail address');
}
if ($key !== '' && preg_match('/^[0-9a-f]{32}$/D', $key) !== 1) {
    refuse('client_key', 'it may be 32 hexadecimal digits');
}
foreach ($_FILES as $other => $sent) {
    if (!in_array($other, ['photo', 'enquiry'], true) && array_filter((array) $sent['error'], fn ($error) => $error !== UPLOAD_ERR_NO_FILE)) {
        refuse((string) $other, 'files are taken in the field `photo[]` alone');
    }
}
$records = files('enquiry');
if (count($records) > 1 || ($records !== [] && (strlen($records[0]) > 524_288 || !is_array(json_decode($records[0], true, 64))))) {
    refuse('enquiry', 'it may be one file of JSON of at most 524288 bytes');
}
$photos = files('photo');
if (count($photos) > $settings['photos']) {
    refuse('photo', "there may be at most {$settings['photos']}", 413);
}
foreach ($photos as $at => $photo) {
    if (strlen($photo) > $settings['photo_bytes']) {
        refuse('photo', 'photo ' . ($at + 1) . " may have at most {$settings['photo_bytes']} bytes", 413);
    }
    $clean = cleaned_jpeg($photo);
    if ($clean === null) {
        refuse('photo', 'photo ' . ($at + 1) . ' may be a JPEG picture');
    }
    $photos[$at] = $clean;
}
if (array_sum(array_map('strlen', $photos)) > $settings['all_bytes']) {
    refuse('photo', "all photos together may have at most {$settings['all_bytes']} bytes", 413);
}

// A reference that is the same whenever the same enquiry comes again: the homeowner may have sent twice without knowing. A form without a
// key of its own is known by the whole of what was sent.
$fields = $_POST;
ksort($fields);
$whole = json_encode([$fields, array_map(fn ($bytes) => hash('sha256', $bytes), [...$records, ...$photos])], JSON_INVALID_UTF8_SUBSTITUTE);
$digest = hash('sha256', $key !== '' ? $key : $whole, true);
$signs = 'BCDFGHJKMNPQRTVWXZ234678';
$reference = '';
for ($at = 0; $at < 8; $at++) {
    $reference .= ($at === 4 ? '-' : '') . $signs[ord($digest[$at]) % 24];
}

// The program's summary says all; a plain form has none, and is written out.
$text = $summary;
if ($text === '') {
    $lines = ['Name' => $name, 'Telephone' => $telephone, 'E-mail' => $email, 'Reach by' => $reach, 'Good time' => $when,
        'Postcode' => $postcode, 'Address' => $address, 'Supply number' => $supply,
        'Noticed' => implode(', ', $hazards), 'When noticed' => $noticed, 'Where' => $place, 'Note' => $note,
        'May be sent offers' => in_array($_POST['offers'] ?? '', ['yes', 'on'], true) ? 'yes' : '', 'Photos' => $photos === [] ? '' : (string) count($photos)];
    foreach (array_filter($lines, fn ($value) => $value !== '') as $label => $value) {
        $text .= "$label: $value\n";
    }
    $text .= implode('', array_map(fn ($line) => "$line\n", other_fields()));
    if (array_diff($hazards, ['none', 'not-sure', '']) !== []) {
        $text = "SOMETHING UNSAFE WAS NOTICED: it comes first.\n\n$text";
    }
}
$text = "Reference: $reference\n\n$text\n";

$attached = [];
if ($records !== []) {
    $attached['enquiry.json'] = ['application/json', $records[0]];
}
foreach ($photos as $at => $photo) {
    $attached['photo-' . ($at + 1) . '.jpg'] = ['image/jpeg', $photo];
}

if ($settings['folder'] !== null) {
    $files = ['enquiry.txt' => $text] + array_map(fn ($part) => $part[1], $attached);
    keep($settings['folder'], $reference, $files);
    answer(201, 'It has arrived', ['reference' => $reference, 'photos_missing' => []]);
}

$boundary = 'part-' . bin2hex(random_bytes(16));
$headers = [
    head('From', $settings['from']),
    head('MIME-Version', '1.0'),
    head('Content-Type', "multipart/mixed; boundary=\"$boundary\""),
];
if ($email !== '') {
    // Checked above to be one address: it can hold no line break and no second recipient.
    $headers[] = head('Reply-To', $email);
}
$body = "--$boundary\r\nContent-Type: text/plain; charset=utf-8\r\nContent-Transfer-Encoding: base64\r\n\r\n" . chunk_split(base64_encode($text));
foreach ($attached as $file => [$type, $bytes]) {
    $body .= "--$boundary\r\nContent-Type: $type\r\nContent-Transfer-Encoding: base64\r\n"
        . "Content-Disposition: attachment; filename=\"$file\"\r\n\r\n" . chunk_split(base64_encode($bytes));
}
$body .= "--$boundary--\r\n";
// Nothing that a stranger typed is in the subject.
if (!mail($settings['to'], "Enquiry $reference", $body, implode("\r\n", $headers))) {
    answer(502, 'The mail could not be sent and nothing was kept; try again in a while, or ring.');
}
answer(201, 'It has arrived', ['reference' => $reference, 'photos_missing' => []]);
