<?php
// Takes an enquiry where there is no service of its own: one plain form post, made into a mail with its attachments.
//
// Copy this one file to an ordinary web host, set the few lines below, and name its address in the form:
//   <presurvey-form submit="/receive.php" submit-as="multipart" …>
// It needs PHP 8.1 or newer and nothing else. PHP takes a name that comes more than once only where it ends in `[]`: the form
// says `hazard[]` and `photo[]`. It keeps nothing, unless `folder` says where.

declare(strict_types=1);

/** What you set. A file `receive-settings.php` beside this one that returns such a list goes before it. */
$settings = [
    // Where enquiries go, and from which address of your own domain they are sent. These two are invented.
    'to' => 'enquiries@installer.invalid',
    'from' => 'website@installer.invalid',
    // A folder that is not reachable from the web: then nothing is mailed, each enquiry is a folder in it.
    'folder' => null,
    // How many photos, and how many bytes of one and of all. Your host has limits of its own (`upload_max_filesize`,
    // `max_file_uploads`, `post_max_size`): they should be higher.
    'photos' => 12,
    'photo_bytes' => 6_000_000,
    'all_bytes' => 20_000_000,
    // Other websites of yours whose form may post here, such as 'https://www.installer.invalid'.
    'origins' => [],
];
$beside = __DIR__ . '/receive-settings.php';
if (is_file($beside)) {
    $settings = array_merge($settings, (array) require $beside);
}

/** Answers and ends: JSON for a script, a small page for a browser that posted a plain form. */
function answer(int $status, string $title, array $more = []): never
{
    http_response_code($status);
    header('X-Content-Type-Options: nosniff');
    header('Cache-Control: no-store');
    header("Content-Security-Policy: default-src 'none'");
    if (str_contains($_SERVER['HTTP_ACCEPT'] ?? '', 'text/html')) {
        header('Content-Type: text/html; charset=utf-8');
        $shown = htmlspecialchars($title, ENT_QUOTES | ENT_SUBSTITUTE, 'UTF-8');
        echo "<!doctype html>\n<html lang=\"en-GB\">\n<meta charset=\"utf-8\">\n";
        echo "<meta name=\"viewport\" content=\"width=device-width\">\n<title>$shown</title>\n<h1>$shown</h1>\n";
        if (isset($more['reference'])) {
            echo '<p>Your reference: ' . htmlspecialchars($more['reference'], ENT_QUOTES, 'UTF-8') . "</p>\n";
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
            refuse($name, 'a file is larger than this website takes', 413);
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

/** Whether it begins and ends as a JPEG picture does and is read as one. */
function is_jpeg(string $bytes): bool
{
    if (!str_starts_with($bytes, "\xff\xd8\xff") || !str_ends_with($bytes, "\xff\xd9")) {
        return false;
    }
    $size = @getimagesizefromstring($bytes);
    return $size !== false && $size[2] === IMAGETYPE_JPEG;
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
if ($origin !== '' && in_array($origin, $settings['origins'], true)) {
    header("Access-Control-Allow-Origin: $origin");
    header('Vary: Origin');
}
if ($method === 'OPTIONS') {
    header('Access-Control-Allow-Methods: POST');
    header('Access-Control-Allow-Headers: Content-Type');
    http_response_code(204);
    exit;
}
if ($method !== 'POST') {
    header('Allow: POST');
    answer(405, 'This address takes enquiries from the form alone.');
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
$place = field('hazard-place', 40);
$key = field('client_key', 32);
$said = $_POST['hazard'] ?? [];
$hazards = is_array($said) ? $said : [$said];
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
    if (!is_jpeg($photo)) {
        refuse('photo', 'photo ' . ($at + 1) . ' may be a JPEG picture');
    }
}
if (array_sum(array_map('strlen', $photos)) > $settings['all_bytes']) {
    refuse('photo', "all photos together may have at most {$settings['all_bytes']} bytes", 413);
}

// A reference that is the same whenever the same enquiry comes again: the homeowner may have sent twice without knowing.
$digest = hash('sha256', $key !== '' ? $key : $name . $telephone . $email . $note . $summary, true);
$signs = 'BCDFGHJKMNPQRTVWXZ234678';
$reference = '';
for ($at = 0; $at < 8; $at++) {
    $reference .= ($at === 4 ? '-' : '') . $signs[ord($digest[$at]) % 24];
}

// The program's summary says all; a plain form has none, and is written out.
$text = $summary;
if ($text === '') {
    $lines = ['Name' => $name, 'Telephone' => $telephone, 'E-mail' => $email, 'Good time' => $when, 'Postcode' => $postcode,
        'Address' => $address, 'Supply number' => $supply,
        'Noticed' => implode(', ', $hazards), 'Where' => $place, 'Note' => $note,
        'May be sent offers' => ($_POST['offers'] ?? '') === 'yes' ? 'yes' : '', 'Photos' => $photos === [] ? '' : (string) count($photos)];
    foreach (array_filter($lines, fn ($value) => $value !== '') as $label => $value) {
        $text .= "$label: $value\n";
    }
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
    // Written under another name first: a folder that has its own name is whole.
    $whole = $settings['folder'] . '/' . $reference;
    if (!is_dir($whole)) {
        $draft = $settings['folder'] . '/.arriving-' . bin2hex(random_bytes(8));
        $kept = mkdir($draft, 0700) && file_put_contents("$draft/enquiry.txt", $text) === strlen($text);
        foreach ($attached as $file => [, $bytes]) {
            $kept = $kept && file_put_contents("$draft/$file", $bytes) === strlen($bytes);
        }
        if (!$kept || !rename($draft, $whole) && !is_dir($whole)) {
            answer(500, 'Something is wrong at our end and nothing was kept; try again in a while.');
        }
    }
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
