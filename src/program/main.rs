//! The native program: assessments without a page, calculations, sources, schemas, setups, and the service.

mod account_commands;
mod figure;
mod input;
mod listed;
mod log;
mod rate_commands;
mod serving;
mod setups;
mod sign;
mod sources;

use account_commands::AccountCommand;
use anyhow::{Context, Result};
use clap::{Parser, Subcommand};
use input::{Refused, named, none_wrong, read_answers, read_config, read_setup};
use model::config::{NEWEST_FORMAT, Setup, demo_config};
use presurvey::own_words::check_wording;
use service::{
    AccountName, CopyError, ExportError, MailSettings, ServeOptions, Service, Unsent, assess_again, installer_folder,
    send_again, serve, test_mail, unsent,
};
use serving::{Instead, ReadSetup, absurd_days, corrected, surroundings};
use std::io::{IsTerminal, Write};
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

const EXIT_CODES: &str = "\
Files are JSON but for price lists; `-` is standard input. What a command makes goes to standard output, what it has to say to
standard error. It ends with 0 if all went well, with 2 if what it was given is not allowed (where and why is said), else with 1.";

/// What a home needs before a car charge point is fitted.
#[derive(Parser)]
#[command(name = "presurvey", version, after_help = EXIT_CODES)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Assesses a file of answers, or an enquiry as it came by mail (`enquiry.json`), and prints the assessment as JSON.
    #[command(
        after_help = "Examples:\n  presurvey assess tests/homes/easy-detached/answers.json\n  presurvey assess enquiry.json --setup my-setup.json --working"
    )]
    Assess {
        /// The file of answers, or the record of an enquiry, whose answers are assessed again; `-` is standard input.
        file: PathBuf,
        /// The published config; without it and without a setup the invented demo's is used, and the assessment says so.
        #[arg(long)]
        config: Option<PathBuf>,
        /// The installer's private setup, in place of what would be published from it.
        #[arg(long, conflicts_with = "config")]
        setup: Option<PathBuf>,
        /// Adds `working`: how each figure was reached, with formula, inputs and source.
        #[arg(long)]
        working: bool,
    },
    /// One calculation worked out, with how: `presurvey figure voltage-drop length=20m size=6mm2 current=32A`.
    #[command(
        after_help = "Examples:\n  presurvey figure\n  presurvey figure voltage-drop\n  presurvey figure voltage-drop length=20m size=6mm2 current=32A"
    )]
    Figure {
        /// The name of the calculation; without it all are listed, with what each takes.
        name: Option<String>,
        /// Its inputs: KEY=VALUE, each value with its unit; without any, the inputs are explained.
        arguments: Vec<String>,
        /// As JSON, for programs.
        #[arg(long)]
        json: bool,
    },
    /// Where the figures are from: what was checked, what is from memory alone, which clauses are of an edition no longer in force.
    #[command(after_help = "Examples:\n  presurvey sources\n  presurvey sources --sign > to-sign.txt")]
    Sources {
        /// As JSON, for programs.
        #[arg(long)]
        json: bool,
        /// The sheet on which a qualified person checks and signs, clause by clause and value by value.
        #[arg(long, conflicts_with = "json")]
        sign: bool,
    },
    /// Every flag with why it matters, what is done, what the homeowner is told, and its source: one page of Markdown.
    #[command(after_help = "Example:\n  presurvey flags > FLAGS.md")]
    Flags,
    /// The JSON Schemas of answers, config, setup, enquiry and recorded jobs, in one JSON object.
    #[command(after_help = "Example:\n  presurvey schema > schemas.json")]
    Schema,
    /// Begins a setup from ten figures, or from jobs you remember: `presurvey setup name="Your firm" hour=£52 mark-up=20% …`.
    ///
    /// Without arguments it lists them. What is left out has a default, and the report says so; no visitor sees a price until you confirm
    /// the rates.
    #[command(
        after_help = "Examples:\n  presurvey setup\n  presurvey setup name=\"Your firm\" hour=£50 socket=£400 --out my-setup.json"
    )]
    Setup {
        /// KEY=VALUE each.
        figures: Vec<String>,
        /// A file of jobs that you remember, with what was done, hours and price: rates and times that were not given are inferred from
        /// them.
        #[arg(long)]
        jobs: Option<PathBuf>,
        /// The day of the setup; today if left out.
        #[arg(long)]
        day: Option<jiff::civil::Date>,
        /// The file to write the setup to; without it only the report is made.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Brings a price list in CSV into a setup, and says line by line what was taken and what was not understood.
    #[command(after_help = "Example:\n  presurvey prices list.csv --setup my-setup.json --out my-setup.json")]
    Prices {
        /// The price list; `-` is standard input.
        file: PathBuf,
        /// The setup to read it into.
        #[arg(long)]
        setup: PathBuf,
        /// The file to write the changed setup to; without it only the report is made.
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Compares recorded jobs with their estimates: whether the bands hold, what takes longer than estimated, what to change in the setup.
    #[command(
        after_help = "Examples:\n  presurvey calibrate jobs.json --setup my-setup.json\n  presurvey calibrate jobs.json --setup my-setup.json --out my-setup.json"
    )]
    Calibrate {
        /// The jobs; `-` is standard input.
        file: PathBuf,
        /// The setup to compare them with; without it nothing is proposed.
        #[arg(long)]
        setup: Option<PathBuf>,
        /// Accepts the proposal: the file to write the changed setup to.
        #[arg(long, requires = "setup")]
        out: Option<PathBuf>,
        /// As JSON, for programs; the proposal is a JSON Patch (RFC 6902).
        #[arg(long)]
        json: bool,
    },
    /// Checks a setup and prints the config that a visitor would be given.
    #[command(
        after_help = "Examples:\n  presurvey publish my-setup.json > config.json\n  presurvey publish my-setup.json --format 2 > config.json"
    )]
    Publish {
        /// The setup file; `-` is standard input.
        setup: PathBuf,
        /// For a form that was copied to a website before: 1 is what version 0.1.0 reads, 2 what 0.2.0 does, 3 what 0.3.0 does; left out,
        /// today's. A form that is given its config by the service asks for its own.
        #[arg(long, default_value_t = NEWEST_FORMAT, value_parser = clap::value_parser!(u8).range(1..=i64::from(NEWEST_FORMAT)))]
        format: u8,
    },
    /// Sets a password: asked for twice, unseen, on a terminal; else all of standard input.
    ///
    /// It has at least twelve characters. Without a name it is the password of the account `owner`, which is made where there is none yet.
    /// Whoever was signed in to the account is signed out; others are not. The service may run meanwhile.
    #[command(
        after_help = "Examples:\n  presurvey password --data /var/lib/presurvey\n  presurvey password --data /var/lib/presurvey < password.txt\n  presurvey password --data /var/lib/presurvey --name sam\n  presurvey password --data /var/lib/presurvey --installer second-firm"
    )]
    Password {
        #[command(flatten)]
        whose: Whose,
        /// Another account than `owner`, one that is there already.
        #[arg(long)]
        name: Option<AccountName>,
    },
    /// Accounts of the installer's page: who may sign in, what they may do, and the code asked for beside a password.
    #[command(subcommand, after_help = "Example of what to read next:\n  presurvey account add --help")]
    Account(AccountCommand),
    /// Sends a test mail as the service would mail an enquiry, and says what went wrong.
    #[command(after_help = "Example:\n  presurvey mail-test --setup my-setup.json")]
    MailTest {
        /// The installer's private setup; `PRESURVEY_MAIL_PASSWORD` in the environment comes before its password.
        #[arg(long)]
        setup: PathBuf,
    },
    /// Lists the mails and webhooks that are not sent yet, and why; the service may run meanwhile.
    #[command(after_help = "Example:\n  presurvey outbox --data /var/lib/presurvey --again")]
    Outbox {
        #[command(flatten)]
        whose: Whose,
        /// Has the service try again, for as many days as at first, what it gave up.
        #[arg(long)]
        again: bool,
    },
    /// Assesses every kept enquiry again by a setup's prices, after a change of rates; the service may run meanwhile.
    #[command(
        after_help = "Examples:\n  presurvey assess-again --data /var/lib/presurvey\n  presurvey assess-again --data /var/lib/presurvey --setup my-setup.json"
    )]
    AssessAgain {
        #[command(flatten)]
        whose: Whose,
        /// The setup whose prices count from now on; left out, the newest that the data folder keeps.
        #[arg(long)]
        setup: Option<PathBuf>,
    },
    /// Lists the versions of the setup that a service keeps, prints one, or takes in a new one.
    ///
    /// `serve --setup FILE` takes its file in as a version if it differs from the newest, at the start and on SIGHUP; without `--setup` it runs
    /// by the newest. A version comes out byte for byte as it came in, with the passwords that are in it.
    #[command(
        after_help = "Examples:\n  presurvey setups --data /var/lib/presurvey\n  presurvey setups --data /var/lib/presurvey --version newest > my-setup.json\n  presurvey setups --data /var/lib/presurvey --take my-setup.json"
    )]
    Setups {
        #[command(flatten)]
        whose: Whose,
        /// Prints this version: its number, or `newest`.
        #[arg(long, value_name = "NUMBER")]
        version: Option<setups::Which>,
        /// Checks this file and takes it in as the newest version; a service that was started without `--setup` takes it on SIGHUP.
        #[arg(long, value_name = "FILE", conflicts_with = "version")]
        take: Option<PathBuf>,
    },
    /// Copies everything that a service keeps, of every installer, into a new folder; the service may run meanwhile.
    #[command(after_help = "Example:\n  presurvey backup --data /var/lib/presurvey --to /backups/today")]
    Backup {
        /// The service's data folder.
        #[arg(long)]
        data: PathBuf,
        /// The folder to make. It holds names, telephone numbers and photos, readable by you alone.
        #[arg(long)]
        to: PathBuf,
    },
    /// Writes everything held of one enquiry into a new folder, for the person who asks for it; the service may run meanwhile.
    ///
    /// Where the enquiry became a job and is deleted, that is what is kept of it apart.
    #[command(
        after_help = "Example:\n  presurvey export --data /var/lib/presurvey --reference BCDF-GHJK --to /tmp/for-them"
    )]
    Export {
        #[command(flatten)]
        whose: Whose,
        /// The enquiry's reference.
        #[arg(long)]
        reference: String,
        /// The folder to make: `enquiry.json` and the photos, readable by you alone.
        #[arg(long)]
        to: PathBuf,
    },
    /// Lists when somebody signed in, accounts changed, and something was handed out or deleted: times and kinds alone, oldest first.
    #[command(after_help = "Example:\n  presurvey events --data /var/lib/presurvey")]
    Events {
        #[command(flatten)]
        whose: Whose,
    },
    /// Makes a data folder of a backup. Everybody signs in anew.
    #[command(after_help = "Example:\n  presurvey restore --from /backups/today --data /var/lib/presurvey")]
    Restore {
        /// The folder that `backup` made.
        #[arg(long)]
        from: PathBuf,
        /// The data folder to make; one that is there already is left alone.
        #[arg(long)]
        data: PathBuf,
    },
    /// Runs the service and both pages, for one installer or several.
    ///
    /// Each installer has a setup. That of the first is named first: they are at `/`, and their data is in the data folder itself. Each further
    /// one is at `/ID/` by the `installer.id` of their setup, with data, accounts and passwords of their own, in `installers/ID` of the data
    /// folder. Every setup is kept there too, in versions: whoever's is not named any more goes on by the newest version kept.
    #[command(
        after_help = "Examples:\n  presurvey serve --demo --data /tmp/demo --pages dist\n  presurvey serve --data /var/lib/presurvey --pages dist --setup my-setup.json --log json\n  presurvey serve --data /var/lib/presurvey --pages dist --setup one.json --setup two.json\n  presurvey serve --data /var/lib/presurvey --pages dist"
    )]
    Serve {
        /// The folder in which it keeps records and photos; created if needed.
        #[arg(long)]
        data: PathBuf,
        /// The folder of the built pages (with `form` and `triage` in it); without it only the API is served.
        #[arg(long)]
        pages: Option<PathBuf>,
        /// The address to listen on. A service that the internet can reach belongs behind a proxy that encrypts.
        #[arg(long, default_value = "127.0.0.1:8080")]
        listen: SocketAddr,
        /// An invented installer with invented enquiries, and a password drawn at each start.
        #[arg(long, conflicts_with = "setup")]
        demo: bool,
        /// An installer's private setup, once for each installer, the one at `/` first; what is published from it is all that a visitor is
        /// given. Left out, the setups that the data folder keeps.
        ///
        /// Told to (SIGHUP), the service reads each anew: all that it says holds from then on, but for `installer.id`; a file that is not
        /// allowed changes nothing, and the log says where it is wrong. A further installer needs a start.
        #[arg(long)]
        setup: Vec<PathBuf>,
        /// An address of its own on which metrics are told at /metrics, for Prometheus, such as 127.0.0.1:9100; nobody else should reach
        /// it.
        #[arg(long)]
        metrics: Option<SocketAddr>,
        /// How the log is written on standard error. RUST_LOG says from which level on: error, warn, info, debug or trace.
        #[arg(long, env = "PRESURVEY_LOG", value_enum, default_value_t = log::Log::Text)]
        log: log::Log,
        /// The address that people open it by, such as `https://enquiries.example`, in place of every setup's `public_address`; the
        /// environment's `PRESURVEY_ADDRESS` says the same.
        #[arg(long)]
        address: Option<String>,
    },
}

/// Whose data a command is about.
#[derive(clap::Args)]
struct Whose {
    /// The service's data folder.
    #[arg(long)]
    data: PathBuf,
    /// A further installer of that service, by the `installer.id` of their setup; left out, the first.
    #[arg(long, value_name = "ID")]
    installer: Option<String>,
}

impl Whose {
    /// The folder of that installer's data.
    fn folder(&self) -> Result<PathBuf, Refused> {
        installer_folder(&self.data, self.installer.as_deref()).map_err(|why| Refused(why.to_string()))
    }
}

fn main() -> ExitCode {
    match run(Cli::parse().command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("presurvey: {error:#}");
            // 2 means that the input was not allowed, as for a wrong command line; 1 means any other failure.
            if error.is::<Refused>() { ExitCode::from(2) } else { ExitCode::FAILURE }
        }
    }
}

fn run(command: Command) -> Result<()> {
    match command {
        Command::Assess { file, config, setup, working } => {
            let config = match (config, setup) {
                (Some(config), _) => read_config(&config)?,
                (None, Some(setup)) => read_setup(&setup)?.publish(),
                (None, None) => demo_config(),
            };
            let answers = read_answers(&file)?;
            let assessment = engine::assess(&answers, &config);
            if !working {
                return print(&serde_json::to_string(&assessment)?);
            }
            let working = figures::working(&answers, &config);
            print(&serde_json::to_string(&WithWorking { assessment, working })?)
        }
        Command::Figure { name, arguments, json } => print(&figure::tell(name.as_deref(), &arguments, json)?),
        Command::Sources { sign: true, .. } => print(&sign::page()?),
        Command::Sources { json, .. } => print(&sources::tell(json)?),
        Command::Flags => print(presurvey::flag_report::report().trim_end()),
        Command::Schema => print(&serde_json::to_string_pretty(&schemas())?),
        Command::Publish { setup, format } => {
            let file = setup;
            let setup = read_setup(&file)?;
            none_wrong(&named(&file), &check_wording(&setup.wording))?;
            none_wrong(&named(&file), &Vec::from_iter(absurd_days(&setup)))?;
            surroundings(&setup, &named(&file))?;
            corrected(&setup).for_each(|told| eprintln!("{told}"));
            let config = setup.publish();
            print(&if format == NEWEST_FORMAT {
                serde_json::to_string_pretty(&config)?
            } else {
                serde_json::to_string_pretty(&config.in_format(format))?
            })
        }
        Command::Setup { figures, jobs, day, out } => {
            print(&rate_commands::setup(&figures, jobs.as_deref(), day, out.as_deref())?)
        }
        Command::Prices { file, setup, out } => print(&rate_commands::prices(&file, &setup, out.as_deref())?),
        Command::Calibrate { file, setup, out, json } => {
            print(&rate_commands::calibrate(&file, setup.as_deref(), out.as_deref(), json)?)
        }
        Command::MailTest { setup } => mail_test(&setup),
        Command::Outbox { whose, again } => in_runtime(outbox(whose.folder()?, again)),
        Command::AssessAgain { whose, setup } => {
            let (data, setup) = (whose.folder()?, setup.as_deref().map(read_setup).transpose()?);
            in_runtime(async move { again(&data, setup).await })
        }
        Command::Setups { whose, version, take } => {
            let data = whose.folder()?;
            in_runtime(async move {
                match (version, take) {
                    (_, Some(file)) => print(&setups::take(&data, &file).await?),
                    (Some(which), None) => print_whole(&setups::text(&data, which).await?),
                    (None, None) => print(&setups::list(&data).await?),
                }
            })
        }
        Command::Backup { data, to } => in_runtime(async move { copied(&data, &to, "backed up").await }),
        Command::Restore { from, data } => in_runtime(async move { copied(&from, &data, "restored").await }),
        Command::Export { whose, reference, to } => {
            let data = whose.folder()?;
            in_runtime(async move { exported(&data, &reference, &to).await })
        }
        Command::Events { whose } => {
            let data = whose.folder()?;
            in_runtime(async move { events(&data).await })
        }
        Command::Password { whose, name } => account_commands::password(&whose, name),
        Command::Account(command) => account_commands::run(command),
        Command::Serve { data, pages, listen, demo, setup, metrics, log, address } => {
            if setup.iter().filter(|file| *file == Path::new("-")).count() > 1 {
                return Err(Refused("standard input holds one setup; name the others by their files".to_owned()).into());
            }
            let files = setup.iter().map(|file| ReadSetup::of_file(file)).collect::<Result<Vec<_>, _>>()?;
            let address =
                address.or_else(|| std::env::var("PRESURVEY_ADDRESS").ok().filter(|address| !address.is_empty()));
            let instead = Instead { address, mail_password: mail_password() };
            log::begin(log)?;
            let password = std::env::var("PRESURVEY_PASSWORD").ok();
            in_runtime(async {
                let (first, further) = if demo {
                    (serving::demo(&instead)?, Vec::new())
                } else {
                    serving::installers(&data, pages.as_deref(), files, &instead).await?
                };
                let options = ServeOptions { data, pages, listen, first, further, demo, password, metrics };
                serve(options).await.map_err(Into::into)
            })
        }
    }
}

/// An assessment with the working of its figures beside it.
#[derive(serde::Serialize)]
struct WithWorking {
    #[serde(flatten)]
    assessment: engine::Assessment,
    working: Vec<figures::Working>,
}

fn schemas() -> serde_json::Value {
    serde_json::json!({
        "answers": schemars::schema_for!(model::answers::Answers),
        "config": schemars::schema_for!(model::config::Config),
        "setup": schemars::schema_for!(Setup),
        "enquiry": schemars::schema_for!(record::enquiry::Enquiry),
        "jobs": schemars::schema_for!(rates::Jobs),
    })
}

fn in_runtime(task: impl Future<Output = Result<()>>) -> Result<()> {
    tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        // For files, hashes and the engine. Each thread may leave the allocator with a part of memory of its own, so they are few: this
        // program's choice.
        .max_blocking_threads(8)
        .build()
        .context("the program can't start its threads")?
        .block_on(task)
}

/// The mail server's password, where the environment gives it.
fn mail_password() -> Option<String> {
    std::env::var("PRESURVEY_MAIL_PASSWORD").ok().filter(|password| !password.is_empty())
}

fn mail_test(file: &Path) -> Result<()> {
    let setup = read_setup(file)?;
    let settings = MailSettings::of(&setup, mail_password()).ok_or_else(|| {
        Refused(format!(
            "{}: `mail`: nothing is not allowed; it may be an object with `server` and `from`",
            named(file)
        ))
    })?;
    in_runtime(async move {
        let answer = test_mail(&settings).await?;
        print(&format!("{} took a test mail to {}: {answer}", settings.mail.server, settings.to))
    })
}

async fn outbox(data: PathBuf, again: bool) -> Result<()> {
    let service = kept_in(&data, &demo_config()).await?; // the config does not matter here
    let taken_up = if again { Some(send_again(&service).await) } else { None };
    let unsent = unsent(&service).await;
    service.close().await;
    if let Some(rows) = taken_up {
        eprintln!("{} taken up again.", rows?);
    }
    let Unsent { waiting, given_up, rows } = unsent?;
    let lines = rows.iter().map(|row| format!("{row}\n"));
    print(&lines.chain([format!("{waiting} waiting, {given_up} given up.")]).collect::<String>())
}

async fn again(data: &Path, setup: Option<Setup>) -> Result<()> {
    let setup = match setup {
        Some(setup) => setup,
        None => serving::newest_of(data).await?.map(ReadSetup::into_setup).ok_or_else(|| {
            Refused(format!("{}: no setup is kept in this folder; name one with --setup", data.display()))
        })?,
    };
    let service = kept_in(data, &setup.publish()).await?;
    let done =
        assess_again(&service, |progress| eprintln!("{} of {}", progress.done + progress.left, progress.of)).await;
    service.close().await;
    let progress = done.map_err(anyhow::Error::msg)?;
    if progress.left > 0 {
        eprintln!("{} left as they were: this version can't read them.", progress.left);
    }
    print(&format!("{} assessed again.", progress.done))
}

/// The service of a data folder that must be there already.
async fn kept_in(data: &Path, config: &model::config::Config) -> Result<Service> {
    if !data.join("presurvey.sqlite").is_file() {
        return Err(Refused(format!("{}: no service has kept anything in this folder", data.display())).into());
    }
    Ok(Service::open(data, config, None, false).await?)
}

async fn exported(data: &Path, reference: &str, to: &Path) -> Result<()> {
    // What is published does not matter here.
    let service = kept_in(data, &demo_config()).await?;
    let done = service::export(&service, reference, to).await;
    service.close().await;
    let service::Exported { photos, missing } = done.map_err(|error| match error {
        ExportError::NotFound(_) | ExportError::Taken(_) => Refused(error.to_string()).into(),
        other => anyhow::Error::from(other),
    })?;
    missing.iter().for_each(|photo| eprintln!("{photo}: this photo has not arrived, or is gone"));
    print(&format!("The enquiry and {photos} photos are in {}.", to.display()))
}

async fn events(data: &Path) -> Result<()> {
    let service = kept_in(data, &demo_config()).await?;
    let events = service::events(&service).await;
    service.close().await;
    let lines = events?.into_iter().map(|event| match event.number {
        1 => format!("{} {}", event.at, event.kind),
        number => format!("{} {} {number}", event.at, event.kind),
    });
    print_whole(&lines.map(|line| line + "\n").collect::<String>())
}

/// Copies a data folder, and says how far it is on a terminal.
async fn copied(from: &Path, to: &Path, done: &str) -> Result<()> {
    let shows = std::io::stderr().is_terminal();
    let told = |copied, of| {
        if shows {
            eprint!("\r{copied} of {of} photos");
        }
    };
    let copied = service::copy_data(from, to, told).await;
    if shows {
        eprintln!();
    }
    let service::Copied { enquiries, photos, missing } = copied.map_err(|error| match error {
        CopyError::NothingThere(_) | CopyError::Taken(_) => Refused(error.to_string()).into(),
        other => anyhow::Error::from(other),
    })?;
    print(&format!("{enquiries} enquiries and {photos} photos {done}."))?;
    if missing.is_empty() {
        return Ok(());
    }
    let list = missing.join("\n  ");
    anyhow::bail!("these photos are named and were not there whole, all else is {done}:\n  {list}")
}

/// Writes one line to standard output; it is no error if the reader stops early (`| head`).
fn print(text: &str) -> Result<()> {
    print_whole(&format!("{text}\n"))
}

/// Writes a text to standard output as it is.
fn print_whole(text: &str) -> Result<()> {
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error.into()),
        _ => Ok(()),
    }
}
