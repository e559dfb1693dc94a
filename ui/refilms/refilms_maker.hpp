// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/cues.hpp"
#include "core/compare/refilms.hpp"
#include "core/store/session.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QString>

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

namespace latemile::ui {

class SessionDocument;

/// From where the clips of a course are filmed, so that days of one side only are set beside each
/// other; none: whichever side there is.
struct CourseViews {
    std::optional<View> fresh;
    std::optional<View> fatigued;
    bool operator==(const CourseViews&) const = default;
};

/// One filming day of the athlete as far as it could be read.
struct FilmingDay {
    std::filesystem::path folder;
    std::string date;
    std::optional<Readings> fresh;
    std::optional<Readings> fatigued;
    std::vector<std::string> cues; ///< ids of those on its sheet
    bool suggested{};              ///< the numbers chose them, not the coach
    QString fault;                 ///< why the day or one of its clips could not be read
};

/// All filming days of the open session's athlete, read from disk away from the window's thread;
/// the open session is taken as it stands on the table.
class RefilmsMaker final : public QObject {
    Q_OBJECT
public:
    explicit RefilmsMaker(SessionDocument& session, QObject* parent = nullptr);
    ~RefilmsMaker() override;

    [[nodiscard]] bool isBusy() const { return m_waitsFor > 0; }
    [[nodiscard]] int waitsFor() const { return m_waitsFor; }
    [[nodiscard]] const std::vector<FilmingDay>& days() const { return m_days; }
    [[nodiscard]] const std::vector<Course>& fresh() const { return m_fresh; }
    [[nodiscard]] const std::vector<Course>& fatigued() const { return m_fatigued; }
    /// What the athlete was to think of from that day on, at most two; `suggested` by the numbers
    /// where the coach chose none.
    struct Worked {
        QString text;
        bool suggested{};
    };
    [[nodiscard]] Worked cueWorkedOn(const FilmingDay& day) const;

signals:
    void made();

private:
    void follow();
    void takeViews();
    void readOthers();
    void takeDay(const std::shared_ptr<FilmingDay>& day);
    void takeOpenDay();
    void make();

    SessionDocument& m_session;
    std::vector<Cue> m_cues;
    CourseViews m_views;            ///< of the open session
    std::vector<FilmingDay> m_days; ///< in order of date
    std::vector<Course> m_fresh;
    std::vector<Course> m_fatigued;
    int m_waitsFor{};
    int m_reading{}; ///< which reading of the other days is wanted: the newest
    Worker m_worker; ///< last: ends before what its work names
};

} // namespace latemile::ui
